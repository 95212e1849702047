import { note } from '@tonaljs/pitch-note';
import type { Letter } from '../../grammar/tree';

/**
 * A written pitch in scientific pitch notation (R. W. Young, JASA 11, 1939): A4 is the tuning A,
 * middle C is C4. `alter` counts semitones, -2 to 2.
 */
export interface Pitch {
  readonly letter: Letter;
  readonly alter: number;
  readonly octave: number;
}

/** `F#6`, `Bb3`: as the passage language writes it. */
export { printPitch as pitchName } from '../../grammar/print';

const SEMITONES: Readonly<Record<Letter, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const LETTERS: readonly Letter[] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];
const SHARPWARDS: readonly (readonly [Letter, number])[] = [
  ['C', 0],
  ['C', 1],
  ['D', 0],
  ['D', 1],
  ['E', 0],
  ['F', 0],
  ['F', 1],
  ['G', 0],
  ['G', 1],
  ['A', 0],
  ['A', 1],
  ['B', 0],
];
const FLATWARDS: readonly (readonly [Letter, number])[] = [
  ['C', 0],
  ['D', -1],
  ['D', 0],
  ['E', -1],
  ['E', 0],
  ['F', 0],
  ['G', -1],
  ['G', 0],
  ['A', -1],
  ['A', 0],
  ['B', -1],
  ['B', 0],
];

/** Semitones above the C five octaves below middle C: C4 is 60, A4 is 69 (the MIDI note number). */
export function semitone(pitch: Pitch): number {
  return SEMITONES[pitch.letter] + pitch.alter + 12 * (pitch.octave + 1);
}

/** White-key steps above C0, accidentals left out. */
export function step(pitch: Pitch): number {
  return LETTERS.indexOf(pitch.letter) + 7 * pitch.octave;
}

/** The white key `steps` steps above C0: the inverse of `step`. */
export function natural(steps: number): Pitch {
  return { letter: LETTERS[((steps % 7) + 7) % 7] as Letter, alter: 0, octave: Math.floor(steps / 7) };
}

/** The usual spelling of a key of the piano, with sharps unless `flats` is set. */
export function spell(note: number, flats = false): Pitch {
  const [letter, alter] = (flats ? FLATWARDS : SHARPWARDS)[((note % 12) + 12) % 12] as readonly [Letter, number];
  return { letter, alter, octave: Math.floor(note / 12) - 1 };
}

/**
 * The pitch `steps` white keys and `semitones` semitones away: (2, 4) is a major third up. Falls back
 * to the usual spelling where the exact one would need more than two accidentals.
 */
export function transposed(pitch: Pitch, steps: number, semitones: number): Pitch {
  const plain = natural(step(pitch) + steps);
  const target = semitone(pitch) + semitones;
  const alter = target - semitone(plain);
  return Math.abs(alter) <= 2 ? { ...plain, alter } : spell(target, pitch.alter < 0);
}

const SIGNS: Readonly<Record<string, string>> = { '\u{266f}': '#', '\u{266d}': 'b', '\u{1d12a}': '##', '\u{1d12b}': 'bb' };

/**
 * Reads `F#6`, `Bb3`, `C##6`, `B♭3` and the like: a capital letter, at most two accidentals, an octave from -1 to 9.
 * `undefined` for anything else.
 */
export function parsePitch(text: string): Pitch | undefined {
  const plain = text.trim().replace(/[\u{266f}\u{266d}\u{1d12a}\u{1d12b}]/gu, (sign) => SIGNS[sign] ?? sign);
  const read = /^[A-G]/.test(plain) ? note(plain) : undefined;
  if (!read || read.empty || read.oct === undefined || Math.abs(read.alt) > 2 || Math.abs(read.oct - 4) > 5) return undefined;
  return { letter: read.letter as Letter, alter: read.alt, octave: read.oct };
}

/** The equal-tempered pitch nearest to a frequency in Hz, and how many cents the frequency lies above it. */
export function nearestPitch(hz: number, a4: number, flats = false): { readonly pitch: Pitch; readonly cents: number } {
  const exact = 69 + 12 * Math.log2(hz / a4);
  const key = Math.round(exact);
  return { pitch: spell(key, flats), cents: 100 * (exact - key) };
}
