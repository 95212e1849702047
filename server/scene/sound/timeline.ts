import Fraction from 'fraction.js';
import { type Meter, pulseOf } from '../../music/meter';
import type { SceneBar, ScenePassage } from '../../protocol/scene';
import { barStarts, clockPoints, secondsAt } from './clock';
import { byTurns, soundedStrokes } from './marks';

/** One note as it is heard, or one stroke of a tremolo: a note held over several events sounds once. Seconds from the start of the passage, as written. */
export interface Sounding {
  readonly event: number;
  /** Index into the event's notes. */
  readonly note: number;
  readonly at: number;
  readonly seconds: number;
  /** Semitones above the note, where an ornament goes to its neighbours. */
  readonly above: number;
}

/** One beat of the click track. */
export interface Click {
  readonly at: number;
  /** First of a bar. */
  readonly strong: boolean;
}

export interface Timeline {
  readonly soundings: readonly Sounding[];
  readonly clicks: readonly Click[];
  /** Seconds at which every event begins and the silence after it ends. */
  readonly events: readonly { readonly at: number; readonly end: number }[];
  readonly seconds: number;
}

/** When what sounds, and where the beats fall. */
export function timelineOf(passage: ScenePassage): Timeline {
  const { events } = passage;
  const lasting = events.map(({ onset, seconds, silence }, index) => ({
    at: onset,
    end: events[index + 1]?.onset ?? onset + seconds + silence,
  }));
  const soundings = events.flatMap((event) =>
    event.notes.flatMap((note, index) =>
      note.held
        ? []
        : (byTurns(passage.events, event.index) ?? soundedStrokes(event, heldSeconds(passage, event.index, note.sounding))).map(
            ({ at, seconds, above }) => ({
              event: event.index,
              note: index,
              at: event.onset + at,
              seconds,
              above,
            }),
          ),
    ),
  );
  return { soundings, clicks: clicksOf(passage), events: lasting, seconds: lasting.at(-1)?.end ?? 0 };
}

/** How long a note sounds with all that it is held over into. */
function heldSeconds(passage: ScenePassage, index: number, sounding: string): number {
  let seconds = 0;
  for (let at = index; ; at++) {
    const event = passage.events[at];
    if (!event || (at > index && !event.notes.some((note) => note.held && note.sounding === sounding))) return seconds;
    seconds += event.seconds;
  }
}

interface Tempo {
  readonly beat: string;
  readonly bpm: number;
}

/** The beats of all bars, silent ones too; those of a short first bar are counted from its end, as an upbeat is. */
function clicksOf(passage: ScenePassage): readonly Click[] {
  const second = secondsAt(clockPoints(passage));
  const starts = barStarts(passage.bars);
  let tempo = passage.events[0]?.tempo;
  return passage.bars.flatMap((bar, index) => {
    if (bar.endEvent > bar.firstEvent) tempo = passage.events[bar.firstEvent]?.tempo ?? tempo;
    if (!tempo) return [];
    const [begin, length] = [starts[index] as Fraction, new Fraction(bar.length)];
    const beat = beatOf(bar, tempo);
    const beats = length.div(beat).floor();
    const first = bar.number === 0 ? length.sub(beats.mul(beat)) : new Fraction(0);
    return Array.from({ length: Number(beats.valueOf()) }, (_, count) => ({
      at: second(begin.add(first).add(beat.mul(count))),
      strong: count === 0 && bar.number > 0,
    }));
  });
}

/** What is counted: the meter's pulse; without a meter the tempo's. */
function beatOf(bar: SceneBar, tempo: Tempo): Fraction {
  return bar.meter === undefined ? new Fraction(tempo.beat) : pulseOf(sceneMeter(bar.meter));
}

/** `6/8` of a scene. */
export function sceneMeter(text: string): Meter {
  const [count = 4, unit = 4] = text.split('/').map(Number);
  return { count, unit };
}

/** One bar of beats to count in before an event: how many, and how far apart in seconds as written. */
export function countIn(passage: ScenePassage, event: number): { readonly beats: number; readonly apart: number } {
  const bar = passage.bars.find((each) => event >= each.firstEvent && event < each.endEvent);
  const tempo = passage.events[event]?.tempo;
  if (!bar || !tempo) return { beats: 0, apart: 0 };
  const beat = beatOf(bar, tempo);
  const full = bar.meter === undefined ? new Fraction(1) : new Fraction(bar.meter);
  return {
    beats: Math.max(1, Math.round(full.div(beat).valueOf())),
    apart: (beat.div(tempo.beat).valueOf() * 60) / tempo.bpm,
  };
}
