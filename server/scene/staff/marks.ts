import { t } from '../../l10n/translate';
import type { SceneEvent, SceneNote, ScenePassage } from '../../protocol/scene';
import { placeOnly } from '../words';
import { stepOf } from './clef';

/** `changes`: where an editor prints them, because the hand does something new; `all`: on every note. */
export type Marking = 'changes' | 'all';

/** What of its fingering is printed over a note; lowest in the stack first. */
export interface Marks {
  readonly fingers: readonly string[];
  /** `II`, `I·II`. */
  readonly strings?: string;
  /** `3rd pos.` */
  readonly position?: string;
}

type Board = Pick<ScenePassage['board'], 'strings' | 'family' | 'length'>;

/** An event as far as its marks go by it. */
export type Fingered = Pick<SceneEvent, 'notes' | 'barred' | 'position' | 'extends' | 'fingered'>;

/** What a player still knows from the notes before. */
interface Known {
  readonly fingers?: string;
  readonly strings?: string;
  readonly kinds?: string;
  readonly pitch?: string | undefined;
  readonly position?: string;
  readonly frame?: number;
}

/**
 * The fingering printed over the events of one line of music. An editor prints a finger where the hand does something new: at the
 * head of a line, after a shift or with an extension, where one finger follows itself, for the thumb, for an open string or the
 * fourth finger in its stead, for what the text itself fingers, and for harmonics and double stops whose fingers change. Common practice, no source.
 */
export function fingeringMarks<Event extends Fingered>(
  events: readonly Event[],
  board: Board,
  marking: Marking,
): ReadonlyMap<Event, Marks> {
  const marks = new Map<Event, Marks>();
  let known: Known = {};
  for (const event of events) {
    if (event.notes.length === 0) continue;
    const here = { ...known, ...learned(event, board) };
    const { strings } = here;
    const told = marking === 'all' || isNews(event, here, known, board);
    marks.set(event, {
      fingers: told ? fingersOf(event) : [],
      ...(strings !== known.strings && { strings }),
      ...(short(here.position) !== short(known.position ?? t('{place} position', { place: '1st' })) && {
        position: short(here.position),
      }),
    });
    known = here;
  }
  return marks;
}

function learned(event: Fingered, board: Board): Known {
  const [note] = event.notes;
  const frame = note && event.notes.length === 1 ? frameOf(note, board) : Number.NaN;
  return {
    fingers: fingersOf(event).join(' '),
    strings: stringsOf(event),
    kinds: event.notes.map(({ kind }) => kind).join(' '),
    pitch: note && (note.touch ?? note.stop)?.pitch,
    // Harmonics are found by their touch; the position of a stopped hand is what a player thinks in.
    ...(event.position && event.notes.every(({ kind }) => kind === 'stopped') && { position: event.position }),
    ...(frame !== undefined && { frame }),
  };
}

function isNews(event: Fingered, here: Known, known: Known, { strings }: Board): boolean {
  const [note] = event.notes;
  if (!note || event.notes.every(({ held }) => held)) return false;
  if (event.fingered) return true;
  const again = here.fingers === known.fingers && here.kinds === known.kinds;
  if (event.notes.length > 1 || note.kind === 'artificial') return !again;
  if (note.kind === 'open') return !again && note.stringIndex < strings.length - 1;
  if (event.extends || here.fingers === 'T') return true;
  if (note.kind === 'natural' && (!again || here.strings !== known.strings)) return true;
  if (here.fingers === '4' && strings.some(({ pitch }) => pitch === note.sounding)) return true;
  const followsItself = again && here.strings === known.strings && here.pitch !== known.pitch;
  return followsItself || here.frame !== known.frame;
}

/**
 * Where the hand is by what it plays: equal for all the notes it has under its fingers without moving. A finger of a violinist lies
 * on each letter, one of a cellist on each semitone. Undefined for an open string, which says nothing of the hand.
 */
function frameOf(note: SceneNote, { strings, family, length }: Board): number | undefined {
  const finger = note.touch ?? note.stop;
  const open = strings[note.stringIndex]?.pitch;
  if (!finger || !open || note.kind === 'open') return undefined;
  if (note.kind === 'artificial') return Number.NaN;
  const away =
    family === 'cello' ? Math.round(12 * Math.log2(length / (length - finger.mm))) : stepOf(finger.pitch) - stepOf(open);
  return away - (finger.finger === 'T' ? 0 : Number(finger.finger));
}

function stringsOf(event: Fingered): string {
  return [...event.notes]
    .sort((a, b) => a.stringIndex - b.stringIndex)
    .map(({ string }) => string)
    .join('·');
}

/** Lowest in the stack first: the lower string's note, and of a note the finger that stops. */
function fingersOf(event: Fingered): readonly string[] {
  const notes = [...event.notes].sort((a, b) => b.stringIndex - a.stringIndex);
  const fingers = notes.flatMap(({ kind, stop, touch }) =>
    kind === 'open' ? ['0'] : [stop, touch].flatMap((finger) => (finger ? [finger.finger] : [])),
  );
  // One finger over two strings is one finger.
  return event.barred ? [...new Set(fingers)] : fingers;
}

/** `upper 3rd position, extended` → `upper 3rd pos.`: the `x` before the finger says the rest. */
function short(position = ''): string {
  return position && t('{place} pos.', { place: placeOnly(position) });
}
