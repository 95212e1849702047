import Fraction from 'fraction.js';
import type { Manner } from '../../grammar/tree';
import { onFifths, scaleSemitone } from '../../server/hand/frame';
import { natural, type Pitch, semitone } from '../../server/music/pitch';
import type { EventSpec, NoteSpec, Passage, Setup } from '../../server/passage/passage';
import { event, passage } from '../solver/build';
import type { Chosen, Piece, Played } from './data';

/** What is not in the data, for players read it off the page: key, spelling, tempo, silence. Inferred from pitches and lengths alone. */

/** Notes up to a chord of three or more, which a solver of single and double stops isn't asked, or up to a harmonic. */
export interface Run {
  readonly passage: Passage;
  /** For every event, of every player, what each of its notes was played with (lowest note first). */
  readonly chosen: readonly (readonly (readonly Chosen[] | undefined)[])[];
  /** For every event, whether it is a harmonic. */
  readonly harmonics: readonly boolean[];
}

/** The runs of a piece; with `asked`, a single harmonic doesn't end one: it is asked for by its sound and as it was printed. */
export function runsOf({ notes, players }: Piece, setup: Setup, asked = false): readonly Run[] {
  const bpm = usualTempo(notes);
  const bar = barLength(notes);
  const keys = keysOf(notes);
  const fresh = () => ({
    specs: [] as EventSpec[],
    starts: [] as number[],
    chosen: [] as Run['chosen'][number][],
    harmonics: [] as boolean[],
  });
  const runs = [fresh()];
  for (let i = 0; i < notes.length; ) {
    const size = chordFrom(notes, i, bar);
    const group = notes.slice(i, i + size);
    const first = group[0]!;
    const harmonic = Math.max(...group.map((note) => note.harmonic));
    if (size > 2 || (harmonic > 0 && !(asked && size === 1))) {
      if (runs.at(-1)!.specs.length > 0) runs.push(fresh());
    } else {
      const sorted = [...group].sort((a, b) => a.pitch - b.pitch);
      const seconds = (first.duration * 60) / bpm;
      const rest = (silence(first, notes[i + size], bar) * 60) / bpm;
      const run = runs.at(-1)!;
      run.specs.push(
        specOf(
          sorted.map((note) => spelled(note.pitch, keys[i]!)),
          Math.max(0.03, seconds),
          rest,
          harmonic > 0 ? printedAs(harmonic, first) : undefined,
        ),
      );
      run.harmonics.push(harmonic > 0);
      run.starts.push(first.start);
      run.chosen.push(
        Array.from({ length: players }, (_, player) => {
          const all = sorted.map((note) => note.chosen[player]);
          return all.every((one) => one !== undefined) ? (all as Chosen[]) : undefined;
        }),
      );
    }
    i += size;
  }
  return runs
    .filter(({ specs }) => specs.length > 0)
    .map(({ specs, starts, chosen, harmonics }) => ({ passage: passage(specs, setup, starts.map(beatOf)), chosen, harmonics }));
}

/** Notes of a chord from one on: same start and length, before the next, each on the neighbouring string of the one before by whoever played it. */
function chordFrom(notes: readonly Played[], i: number, bar: number): number {
  const first = notes[i]!;
  let size = 1;
  for (;;) {
    const next = notes[i + size];
    const before = notes[i + size - 1]!;
    if (!next || next.start !== first.start || Math.abs(next.duration - first.duration) > 1e-6 || first.duration >= bar - 0.01)
      return size;
    const together = next.chosen.filter(
      (one, player) => one && before.chosen[player] && Math.abs(one.string - before.chosen[player]!.string) === 1,
    ).length;
    if (next.pitch === before.pitch || together * 2 < next.chosen.length) return size;
    size++;
  }
}

/** Fast notes take about a seventh of a second wherever a piece has many: common practice, no source; slower and faster than this range nobody beats. */
function usualTempo(notes: readonly Played[]): number {
  const lengths = notes
    .map(({ duration }) => duration)
    .filter((one) => one > 0)
    .sort((a, b) => a - b);
  const fast = lengths[Math.floor(lengths.length * 0.15)] ?? 1;
  return Math.min(144, Math.max(60, (60 * fast) / 0.14));
}

/** Quarter notes of a bar: where the notes before bar lines most often end. */
function barLength(notes: readonly Played[]): number {
  const ends = new Map<number, number>();
  for (const [i, { start, duration }] of notes.entries()) {
    const next = notes[i + 1];
    if (!next || next.start >= start - 1e-6) continue;
    const end = Math.round((start + duration) * 12);
    ends.set(end, (ends.get(end) ?? 0) + 1);
  }
  const [most] = [...ends].sort(([, a], [, b]) => b - a);
  return most && most[0] > 0 ? most[0] / 12 : 4;
}

/** Quarter notes of silence between a note and the next. */
function silence({ start, duration }: Played, next: Played | undefined, bar: number): number {
  if (!next) return 0;
  const end = start + duration;
  const over = next.start < start - 1e-6 || (next.start <= start && end >= bar - 0.02);
  const gap = over ? bar - end + next.start : next.start - end;
  return gap < 0.02 ? 0 : Math.min(8, gap);
}

const KEYS = Array.from({ length: 15 }, (_, i) => i - 7);
const scales = KEYS.map(
  (fifths) => new Set(Array.from({ length: 7 }, (_, step) => (scaleSemitone(step + 28, fifths) + 120) % 12)),
);

/** The key around every note: the likeliest course of keys, each change of key as dear as two foreign notes. */
function keysOf(notes: readonly Played[]): readonly number[] {
  const FOREIGN = 2.2;
  const CHANGE = 4;
  let cost = KEYS.map((fifths) => 0.25 * Math.abs(fifths));
  const came: number[][] = [];
  for (const { pitch } of notes) {
    const from = KEYS.map((_, k) => {
      let best = k;
      for (let q = 0; q < KEYS.length; q++) if (change(q, k) < change(best, k)) best = q;
      return best;
    });
    const before = cost;
    cost = KEYS.map((_, k) => before[from[k]!]! + moved(from[k]!, k) + foreign(pitch, k));
    came.push(from);
    function change(q: number, k: number): number {
      return (cost[q] ?? 0) + moved(q, k);
    }
  }
  let k = cost.indexOf(Math.min(...cost));
  const keys: number[] = [];
  for (let i = notes.length - 1; i >= 0; i--) {
    keys[i] = KEYS[k]!;
    k = came[i]![k]!;
  }
  return keys;

  /** The raised seventh of the relative minor (G# in C) is half at home. */
  function foreign(pitch: number, k: number): number {
    if (scales[k]!.has(pitch % 12)) return 0;
    return (((pitch - 7 * KEYS[k]!) % 12) + 12) % 12 === 8 ? 1 : FOREIGN;
  }

  function moved(q: number, k: number): number {
    return q === k ? 0 : CHANGE + 0.5 * Math.abs(q - k);
  }
}

/** A pitch spelled so that it lies nearest to the key on the line of fifths. */
function spelled(pitch: number, fifths: number): Pitch {
  const middle = fifths + 2;
  let best: Pitch | undefined;
  const about = Math.round(((pitch - 12) * 7) / 12);
  for (let step = about - 2; step <= about + 2; step++) {
    const plain = natural(step);
    const alter = pitch - semitone(plain);
    if (Math.abs(alter) > 2) continue;
    const made = { ...plain, alter };
    if (!best || Math.abs(onFifths(made) - middle) < Math.abs(onFifths(best) - middle)) best = made;
  }
  return best!;
}

/**
 * The data name a harmonic by how it is printed: on the sounding pitch (1), with a fourth above a stopped note (2), otherwise (3). A
 * fourth above the open string, three steps up it, is printed as the second and is a natural.
 */
function printedAs(harmonic: number, { chosen }: Played): Manner {
  const overOpen = chosen.some((one) => one && one.position + one.finger - 1 === 3);
  return harmonic === 2 && !overOpen ? 'artificial' : 'natural';
}

const specs = new Map<string, EventSpec>();

function specOf(pitches: readonly Pitch[], seconds: number, rest: number, manner: Manner | undefined): EventSpec {
  const notes: NoteSpec[] = pitches.map((pitch) => ({
    asked: { kind: 'sounding', pitch },
    harmonic: manner ? 'must' : 'no',
    pins: manner ? { manner } : {},
  }));
  const spec = event(notes, { seconds, rest });
  const made = specs.get(spec.key) ?? spec;
  specs.set(spec.key, made);
  return made;
}

/** Beats of a bar are counted from 1; what was written down is rounded, so they are taken to a 48th. */
function beatOf(start: number): Fraction {
  return new Fraction(Math.round((start + 1) * 48), 48);
}
