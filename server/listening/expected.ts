import { cents } from '../music/temperament';
import type { SceneBoard, SceneEvent, SceneNote, ScenePassage } from '../protocol/scene';
import { asPlayed } from '../scene/sound/as-played';

/** What may sound where a note is written. */
export type Source =
  /** The note itself. */
  | 'written'
  /** The string as it is stopped: the touching finger did nothing, or pressed the string's own length free. */
  | 'stopped'
  /** The touching finger pressed the string down. */
  | 'touched'
  /** Another partial of the same string, stopped as it is. */
  | 'partial'
  | 'open'
  /** Some other note within an octave. */
  | 'other';

export interface Candidate {
  readonly source: Source;
  /** At the file's A4. */
  readonly hz: number;
  /** Of another partial. */
  readonly partial?: number;
}

export interface ExpectedNote {
  /** Index into the event's notes. */
  readonly note: number;
  readonly scene: SceneNote;
  /** What is written first, then what it may have turned into, likeliest first. */
  readonly candidates: readonly Candidate[];
}

/** One thing to listen for, in the order it is played: a note, double stop or chord, or a silence. */
export interface ExpectedEvent {
  /** Index into the written passage's events. */
  readonly event: number;
  /** As written at its tempo, s. */
  readonly seconds: number;
  /** Empty for a silence, and for what can't be played. */
  readonly notes: readonly ExpectedNote[];
  readonly silence: boolean;
  /** Where a player who stops would begin again. */
  readonly begins: 'passage' | 'bar' | 'inside';
}

/** Silences shorter than this are how one note is parted from the next, s. */
const SHORTEST_SILENCE = 0.08;
/** Partials that a string may whistle instead of the wanted one. */
const PARTIALS = [2, 3, 4, 5, 6, 7, 8] as const;
/** Two candidates closer than this are one, cents. */
const APART = 35;

/** A solved passage as it should be heard, repeats played out, notes held over several events once. */
export function expectedOf(written: ScenePassage): readonly ExpectedEvent[] {
  const { passage, written: indices } = asPlayed(written);
  const starts = new Set(passage.bars.map(({ firstEvent }) => firstEvent));
  const events: ExpectedEvent[] = [];
  for (const [index, event] of passage.events.entries()) {
    const last = events.at(-1);
    if (last && !last.silence && event.notes.length > 0 && event.notes.every(({ held }) => held))
      events[events.length - 1] = { ...last, seconds: last.seconds + event.seconds };
    else
      events.push({
        event: indices[index] ?? index,
        seconds: event.seconds,
        notes: notesOf(event, passage.board),
        silence: false,
        begins: index === 0 ? 'passage' : starts.has(index) ? 'bar' : 'inside',
      });
    if (event.silence > SHORTEST_SILENCE)
      events.push({ event: indices[index] ?? index, seconds: event.silence, notes: [], silence: true, begins: 'inside' });
  }
  return events;
}

function notesOf(event: SceneEvent, board: SceneBoard): readonly ExpectedNote[] {
  return event.notes.map((scene, note) => ({ note, scene, candidates: candidatesOf(scene, board) }));
}

function candidatesOf(note: SceneNote, board: SceneBoard): readonly Candidate[] {
  const open = board.strings[note.stringIndex]?.hz ?? note.hz;
  const base = note.hz / note.partial;
  const [k = 0, n = 1] = (note.touch?.fraction ?? '0/1').split('/').map(Number);
  const all: Candidate[] = [
    { source: 'written', hz: note.hz },
    ...(note.kind === 'artificial' ? [{ source: 'stopped', hz: base } as const] : []),
    { source: 'open', hz: open },
    ...(note.touch ? [{ source: 'touched', hz: base / (1 - k / n) } as const] : []),
    ...PARTIALS.map((partial) => ({ source: 'partial', hz: base * partial, partial }) as const),
  ];
  return all.filter(({ hz }, i) => all.findIndex((other) => Math.abs(cents(hz / other.hz)) < APART) === i);
}
