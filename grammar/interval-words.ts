import { type Replacement, write } from './problems';

/** The intervals to propose, smallest first. */
const USUAL = ['m2', 'M2', 'm3', 'M3', 'P4', 'P5', 'm6', 'M6', 'm7', 'M7', 'P8'];
const INTERVAL = /^(?:P[1458]|[mM][2367]|A[1-8]|d[2-8])$/;

/** Perfect, major, minor, augmented and diminished, up to the octave. */
export function isInterval(word: string): boolean {
  return INTERVAL.test(word);
}

/** The intervals a word may have been meant as: `3rd` is a third of either kind, `p5` the fifth. */
export function likelyIntervals(word: string): Replacement[] {
  const size = /[2-8]/.exec(word)?.[0];
  return USUAL.filter((name) => size !== undefined && name.endsWith(size)).map(write);
}

export const INTERVAL_NAMES = USUAL.join(', ');
