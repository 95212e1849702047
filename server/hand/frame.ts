import type { Finger, Letter } from '../../grammar/tree';
import type { Family } from '../instrument/instrument';
import { type Pitch, semitone, step } from '../music/pitch';
import { celloStandings, PRESSED, type Use } from './cello-frame';
import { POSITIONS } from './constants';
import type { Standing } from './hand';

/** How far out of the frame each finger goes alone, semitones: the first reaches back, the fourth up. Common practice, no source. */
const BENDS: Readonly<Record<1 | 2 | 3 | 4, readonly [back: number, up: number]>> = {
  1: [-2, 1],
  2: [-1, 1],
  3: [-1, 1],
  4: [-1, 2],
};

/** The same where two fingers are down together, whose reach is asked apart: an octave along one string, high up, bends the fourth by four and the second by five. */
const BENDS_TOGETHER = 5;

/** All ways in which a finger can stand `semitones` above an open string, in a key of so many sharps (negative: flats). */
export function standings(
  finger: Finger,
  semitones: number,
  open: Pitch,
  fifths: number,
  family: Family,
  use: Use = PRESSED,
): readonly Standing[] {
  return family === 'cello' ? celloStandings(finger, semitones, use) : scaleFrame(finger, semitones, open, fifths);
}

const frames = new WeakMap<Pitch, Map<number, readonly Standing[]>>();

/** Worked out once for every finger, distance and key on a string: all notes ask the same. */
function scaleFrame(finger: Finger, semitones: number, open: Pitch, fifths: number): readonly Standing[] {
  if (finger === 'T' || finger === 0) return [];
  let known = frames.get(open);
  if (!known) {
    known = new Map();
    frames.set(open, known);
  }
  const key = (semitones * KEYS + fifths) * FINGERS + finger;
  let found = known.get(key);
  if (!found) {
    found = framed(finger, semitones, open, fifths);
    known.set(key, found);
  }
  return found;
}

/** More than there are keys, and fingers. */
const KEYS = 32;
const FINGERS = 8;

function framed(finger: 1 | 2 | 3 | 4, semitones: number, open: Pitch, fifths: number): readonly Standing[] {
  const first = step(open);
  const found: Standing[] = [];
  // A step is between one and two semitones, 12/7 in the mean: the finger's own step is never farther off than this.
  const about = Math.round((semitones * 7) / 12);
  for (let steps = Math.max(finger - 1, about - BENDS_TOGETHER); steps <= about + BENDS_TOGETHER; steps++) {
    const place = steps - finger + 1;
    const bend = semitones - (scaleSemitone(first + steps, fifths) - semitone(open));
    if (place < POSITIONS && Math.abs(bend) <= BENDS_TOGETHER) found.push({ place, bend });
  }
  return found;
}

/** True where a finger stands so by itself, without another finger down that holds the hand where it is. */
export function standsAlone(finger: Finger, bend: number, family: Family): boolean {
  if (family === 'cello' || finger === 'T' || finger === 0) return true;
  const [back, up] = BENDS[finger];
  return back <= bend && bend <= up;
}

const LETTERS: readonly Letter[] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];
const NATURAL = [0, 2, 4, 5, 7, 9, 11] as const;
/** Places of the letters on the line of fifths, C 0. */
const FIFTHS: Readonly<Record<Letter, number>> = { F: -1, C: 0, G: 1, D: 2, A: 3, E: 4, B: 5 };

/** Place of a written pitch on the line of fifths: C 0, G 1, F -1, F# 6, Bb -2. */
export function onFifths({ letter, alter }: Pick<Pitch, 'letter' | 'alter'>): number {
  return FIFTHS[letter] + 7 * alter;
}

/** The scale's note on a white-key step above C0 in a key of so many sharps (negative: flats), semitones as in `semitone`. */
export function scaleSemitone(steps: number, fifths: number): number {
  const degree = ((steps % 7) + 7) % 7;
  const alter = Math.ceil((fifths - 1 - FIFTHS[LETTERS[degree]!]) / 7);
  return NATURAL[degree]! + alter + 12 * (Math.floor(steps / 7) + 1);
}
