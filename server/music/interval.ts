import { interval } from '@tonaljs/pitch-interval';
import type { Letter } from '../../grammar/tree';
import { natural, type Pitch, semitone, spell, step, transposed } from './pitch';
import { fifthsFromA } from './temperament';

/** An ascending interval: `steps` white keys and `semitones` semitones (M3 is 2 and 4). */
export interface Interval {
  /** The trade's short name, `m2` to `P15`. */
  readonly name: string;
  readonly steps: number;
  readonly semitones: number;
}

/** The intervals within an octave, narrow to wide. */
export const INTERVALS = ['P1', 'm2', 'M2', 'm3', 'M3', 'P4', 'A4', 'd5', 'P5', 'm6', 'M6', 'm7', 'M7', 'P8'] as const;

/** Two octaves: the widest interval that has a name of its own. */
const WIDEST = 15;

/** Reads `m2`, `P5`, `A4`, `M10`...; `undefined` for what is no interval. */
export function parseInterval(text: string): Interval | undefined {
  // tonal also reads 5P, AA4, P-5 and P05, and lets M5 and m4 pass for P5 and P4; no player writes them.
  if (!/^[mMPAd][1-9]/.test(text)) return undefined;
  const read = interval(text);
  if (read.empty || read.num > WIDEST || read.semitones < 0) return undefined;
  if (read.type === 'perfectable' && /m/i.test(text)) return undefined;
  return { name: text, steps: read.num - 1, semitones: read.semitones };
}

/** The pitch an interval above or below. */
export function transposedBy(pitch: Pitch, by: Interval, direction: 'up' | 'down'): Pitch {
  const sign = direction === 'up' ? 1 : -1;
  return transposed(pitch, sign * by.steps, sign * by.semitones);
}

export interface Key {
  readonly tonic: Pick<Pitch, 'letter' | 'alter'>;
  /** `minor` is the natural minor. */
  readonly mode: 'major' | 'minor';
}

/** The accidental that a key gives a letter: 1 for F in D major. */
export function keyAlter(letter: Letter, key: Key): number {
  // A major key's scale runs from one fifth below its tonic to five above, a minor key's from four below to two above.
  const lowest = fifthsFromA(key.tonic) - (key.mode === 'major' ? 1 : 4);
  return Math.ceil((lowest - fifthsFromA({ letter, alter: 0 })) / 7) + 0; // -0 would not equal 0
}

/**
 * The pitch `steps` steps of the key's scale away (negative is down). A note foreign to the key keeps its distance from the
 * scale's note of the same letter; where that would take three accidentals it is spelled in the usual way.
 */
export function diatonic(pitch: Pitch, steps: number, key: Key): Pitch {
  const plain = natural(step(pitch) + steps);
  const alter = keyAlter(plain.letter, key) + pitch.alter - keyAlter(pitch.letter, key);
  return Math.abs(alter) <= 2 ? { ...plain, alter } : spell(semitone(plain) + alter, alter < 0);
}
