import type { Finger } from '../../grammar/tree';
import { FINGERS_CROSSED } from './constants';
import type { FingerPair, Hand, Reach } from './hand';

/** The pair's name with the lower finger first (the thumb is lowest), or undefined for one and the same finger. */
export function pairOf(a: Finger, b: Finger): { readonly pair: FingerPair; readonly swapped: boolean } | undefined {
  return PAIRS[rank(a)]?.[rank(b)];
}

/** Thumb 0, first finger 1, and so on. */
function rank(finger: Finger): number {
  return finger === 'T' ? 0 : finger;
}

const BY_RANK: readonly Finger[] = ['T', 1, 2, 3, 4];

const PAIRS = BY_RANK.map((a, i) =>
  BY_RANK.map((b, j) => (i === j ? undefined : { pair: (i < j ? `${a}-${b}` : `${b}-${a}`) as FingerPair, swapped: i > j })),
);

/** True where two fingers would have to stand closer than they can; see `opening` for the lengths. */
export function tooClose(reach: Reach, along: number, across: number): boolean {
  return along < (across > 0 ? -FINGERS_CROSSED : reach.least);
}

/** Distance of two fingers in the plane of the fingerboard, mm: `along` the strings and `across` them. */
export function apart(along: number, across: number): number {
  return Math.hypot(along, across);
}

/**
 * How open past comfortable, 0 (at ease) to 1 (all there is); Infinity past the most or where the
 * fingers would have to stand closer than they can. `along` is mm along the string from the lower to
 * the higher finger, `across` the distance between their strings (0 on one string).
 */
export function opening(reach: Reach, along: number, across: number): number {
  if (tooClose(reach, along, across)) return Number.POSITIVE_INFINITY;
  const asked = apart(along, across);
  if (asked > reach.most) return Number.POSITIVE_INFINITY;
  return asked <= reach.comfortable ? 0 : (asked - reach.comfortable) / (reach.most - reach.comfortable);
}

/** The reach of a pair, or undefined where this hand has none on this instrument (a thumb on the violin). */
export function reachOf(hand: Hand, a: Finger, b: Finger): Reach | undefined {
  const named = pairOf(a, b);
  return named && hand.reaches[named.pair];
}
