import type { Finger } from '../../grammar/tree';
import { FINGERS_CROSSED } from './constants';
import type { FingerPair, Hand, Reach } from './hand';

/** The pair's name with the lower finger first (the thumb is lowest), or undefined for one and the same finger. */
export function pairOf(a: Finger, b: Finger): { pair: FingerPair; swapped: boolean } | undefined {
  const x = rank(a);
  const y = rank(b);
  if (x === y) return undefined;
  return x < y ? { pair: `${a}-${b}` as FingerPair, swapped: false } : { pair: `${b}-${a}` as FingerPair, swapped: true };
}

function rank(finger: Finger): number {
  return finger === 'T' ? 0.5 : finger;
}

/**
 * How open past comfortable, 0 (at ease) to 1 (all there is); Infinity past the most or where the
 * fingers would have to stand closer than they can. `along` is mm along the string from the lower to
 * the higher finger, `across` the distance between their strings (0 on one string).
 */
export function opening(reach: Reach, along: number, across: number): number {
  if (along < (across > 0 ? -FINGERS_CROSSED : reach.least)) return Number.POSITIVE_INFINITY;
  const asked = Math.hypot(along, across);
  if (asked > reach.most) return Number.POSITIVE_INFINITY;
  return asked <= reach.comfortable ? 0 : (asked - reach.comfortable) / (reach.most - reach.comfortable);
}

/** The reach of a pair, or undefined where this hand has none on this instrument (a thumb on the violin). */
export function reachOf(hand: Hand, a: Finger, b: Finger): Reach | undefined {
  const named = pairOf(a, b);
  return named && hand.reaches[named.pair];
}
