import { parsePitch, semitone } from '../music/pitch';
import type { ScenePassage } from '../protocol/scene';
import { align, paceOf, type Take } from './align';
import type { Sound } from './audio/sound';
import { beginningsOf } from './beginnings';
import { medianOf } from './curve';
import { evidenceFor } from './evidence';
import { type ExpectedEvent, expectedOf } from './expected';
import { type Frames, framesOf } from './frames';
import { judgeTake } from './judge';
import { silenceOf } from './silence';
import { roughTuning } from './tuning';
import type { HeardNote, HeardTake } from './verdict';

/** What a recording of a passage holds. */
export interface Listening {
  /** Seconds. */
  readonly seconds: number;
  /** Hz: what the recording is tuned to, and whether open strings and natural harmonics tell it or all notes do. */
  readonly a4: number;
  readonly tunedBy: 'fixed' | 'all' | 'file';
  /** In the order they were played; empty where it is not this passage. */
  readonly takes: readonly HeardTake[];
  /** Why it is not taken for this passage. */
  readonly refused?: 'silent' | 'another';
}

/** Frames that alignment takes together at first, to find the pace, and the most cells of its table: a longer recording is aligned in steps of more frames. */
const COARSE = 4;
const MOST_CELLS = 3_000_000;
/** Notes from which a tuning is told. */
const ENOUGH = 3;

/**
 * Listens to a recording of a passage as it is fingered: what became of every written note, take by take.
 *
 * @param progress is told how many seconds have been heard; throwing there stops it
 */
export async function hearSound(
  sound: Sound,
  passage: ScenePassage,
  progress?: (seconds: number) => void | Promise<void>,
): Promise<Listening> {
  return hear(await framesOf(sound, progress), passage);
}

/** The same from frames. */
export function hear(frames: Frames, passage: ScenePassage): Listening {
  const expected = expectedOf(passage);
  const silent = silenceOf(frames);
  const seconds = frames.count * frames.hop;
  const written = writtenA4(passage);
  const nothing = (refused: 'silent' | 'another'): Listening => ({ seconds, a4: written, tunedBy: 'file', takes: [], refused });
  if (silent.every(Boolean)) return nothing('silent');
  const tuning = roughTuning(frames, silent, expected);
  const begins = beginningsOf(frames);
  const takes = takesIn(frames, silent, begins, expected, tuning);
  const judged = takes.map((take) => judgeTake(frames, silent, begins, expected, take, tuning, isBrokenOff(take, expected)));
  if (!isThisPassage(judged, passage, silent, frames.hop)) return nothing('another');
  const { offset, by } = tuningOf(judged.flat(), passage);
  return {
    seconds,
    a4: written * 2 ** ((tuning + offset) / 1200),
    tunedBy: by,
    takes: takes.map((take, i) => heardTake(take, judged[i] ?? [], expected, frames.hop, offset)),
  };
}

function takesIn(
  frames: Frames,
  silent: Uint8Array,
  begins: Float32Array,
  expected: readonly ExpectedEvent[],
  tuning: number,
): readonly Take[] {
  const step = Math.max(1, Math.ceil((frames.count * expected.length) / MOST_CELLS));
  const pace = paceOf(expected, evidenceFor(frames, silent, begins, expected, tuning, COARSE * step), frames.hop);
  return align(expected, evidenceFor(frames, silent, begins, expected, tuning, step), frames.hop, pace).takes.reduce(
    joined(expected, frames.hop / pace),
    [],
  );
}

/** Shares of the notes that must be those of the passage, times the share of what sounds which they make up; weighed on takes of other passages. */
const THIS_PASSAGE = 0.5;
/** The part of a passage that a run must cover for notes gone wrong to speak for it. */
const MOST_OF_IT = 0.6;

function isThisPassage(
  takes: readonly (readonly HeardNote[])[],
  { events }: ScenePassage,
  silent: Uint8Array,
  hop: number,
): boolean {
  const notes = takes.flat();
  const own = takes.flatMap((take) => {
    const long = new Set(take.map(({ event }) => event)).size >= MOST_OF_IT * events.length;
    return take.filter((note) => isOwn(note, long));
  });
  const sounding = silent.reduce((sum, quiet) => sum + 1 - quiet, 0) * hop;
  const seconds = own.reduce((sum, { onset, end }) => sum + Math.max(0, end - onset), 0);
  return (own.length / Math.max(1, notes.length)) * Math.min(1, seconds / sounding) >= THIS_PASSAGE;
}

/** A harmonic that broke into its string is still a note of the passage, where most of the passage is there. */
function isOwn({ verdict, instead }: HeardNote, long: boolean): boolean {
  return verdict === 'spoke' || verdict === 'late' || (long && (instead?.source === 'stopped' || instead?.source === 'open'));
}

/** Notes that a player may go past without having stopped, and how much longer than they last that may take. */
const GOES_PAST = 2;
const LINGERS = 2;

/** A run that goes on a note or two after the one before ended, in about the time that those last, is one with it: they were not heard. */
function joined(expected: readonly ExpectedEvent[], hop: number): (takes: readonly Take[], next: Take) => readonly Take[] {
  return (takes, next) => {
    const before = takes.at(-1);
    const [last, first] = [before?.at(-1), next[0]];
    if (!before || !last || !first) return [...takes, next];
    const past = expected.slice(last.index + 1, first.index);
    const seconds = past.reduce((sum, each) => sum + each.seconds, 0);
    const notes = past.filter(({ silence }) => !silence).length;
    const goesOn = notes >= 1 && notes <= GOES_PAST && (first.from - last.to) * hop <= LINGERS * seconds;
    return goesOn ? [...takes.slice(0, -1), [...before, ...next]] : [...takes, next];
  };
}

function isBrokenOff(take: Take, expected: readonly ExpectedEvent[]): boolean {
  const last = take.at(-1)?.index ?? -1;
  return expected.slice(last + 1).some(({ silence }) => !silence);
}

/** Strings are tuned, and natural harmonics follow them; fingers may all be a little high or low. */
function tuningOf(
  notes: readonly HeardNote[],
  passage: ScenePassage,
): { readonly offset: number; readonly by: Listening['tunedBy'] } {
  const spoke = notes.filter(({ verdict, sure }) => (verdict === 'spoke' || verdict === 'late') && sure > 0.6);
  const cents = (some: readonly HeardNote[]) => some.flatMap(({ intonation }) => (intonation ? [intonation.cents] : []));
  const fixed = cents(
    spoke.filter(({ event, note }) => ['open', 'natural'].includes(passage.events[event]?.notes[note]?.kind ?? '')),
  );
  if (fixed.length >= ENOUGH) return { offset: medianOf(fixed), by: 'fixed' };
  const all = cents(spoke);
  return all.length >= ENOUGH ? { offset: medianOf(all), by: 'all' } : { offset: 0, by: 'all' };
}

function heardTake(
  take: Take,
  notes: readonly HeardNote[],
  expected: readonly ExpectedEvent[],
  hop: number,
  offset: number,
): HeardTake {
  const [first, last] = [take[0], take.at(-1)];
  const written = take.reduce((sum, { index }) => sum + (expected[index]?.seconds ?? 0), 0);
  const [from, to] = [(first?.from ?? 0) * hop, (last?.to ?? 0) * hop];
  return {
    from,
    to,
    pace: written > 0 ? (to - from) / written : 1,
    whole: first?.index === 0 && !isBrokenOff(take, expected),
    notes: notes.map((note) => retuned(note, offset)),
  };
}

function retuned(note: HeardNote, offset: number): HeardNote {
  const { intonation, curve } = note;
  return {
    ...note,
    ...(intonation && { intonation: { ...intonation, cents: intonation.cents - offset } }),
    curve: { ...curve, cents: curve.cents.map((cents) => cents - offset) },
  };
}

/** The passage's own tuning A, Hz, as its notes say. */
function writtenA4({ events }: ScenePassage): number {
  const note = events.find(({ notes }) => notes.length > 0)?.notes[0];
  const pitch = note && parsePitch(note.sounding);
  return note && pitch ? note.hz / 2 ** ((semitone(pitch) - 69) / 12 + note.cents / 1200) : 440;
}
