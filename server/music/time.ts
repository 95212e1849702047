import Fraction from 'fraction.js';
import { InternTable } from './intern';

declare const ONE: unique symbol;

/** A time of which there is one object: identity is equality, and what is worked out from it is exact only when made `one` again. */
export type Exact = Fraction & { readonly [ONE]: true };

/**
 * Exact times, each value one object. Music goes through the same few places of a bar over and over,
 * so sums are remembered (weakly) and equality is identity; exact arithmetic is only done once for each.
 */

const values = new InternTable<Exact>();

/** The one object of this value. */
export function exactly(numerator: number | bigint, denominator: number | bigint): Exact {
  return one(new Fraction(numerator, denominator));
}

/**
 * No score needs a finer grid. Beyond it a sum is rounded to the grid, or a text of ever new denominators would make
 * every next sum slower than the last.
 */
const FINEST = 10n ** 15n;

/** The one object of a value worked out elsewhere. */
export function one(exact: Fraction): Exact {
  const value = exact.d > FINEST ? new Fraction((exact.s * exact.n * FINEST) / exact.d, FINEST) : exact;
  return values.intern(`${value.s * value.n}/${value.d}`, () => value as Exact);
}

export const NO_TIME = exactly(0, 1);

const sums = new WeakMap<Exact, WeakMap<Exact, Exact>>();

/** `a + b`. */
export function sum(a: Exact, b: Exact): Exact {
  if (b === NO_TIME) return a;
  let from = sums.get(a);
  if (!from) {
    from = new WeakMap();
    sums.set(a, from);
  }
  let to = from.get(b);
  if (!to) {
    to = one(a.add(b));
    from.set(b, to);
  }
  return to;
}

const beats = new WeakMap<Exact, Map<number, Exact>>();

/** The beat at which a place of a bar falls, counted from 1, where `unit` beats make a whole note. */
export function beatAt(filled: Exact, unit: number): Exact {
  let from = beats.get(filled);
  if (!from) {
    from = new Map();
    beats.set(filled, from);
  }
  let beat = from.get(unit);
  if (!beat) {
    beat = one(filled.mul(unit).add(1));
    from.set(unit, beat);
  }
  return beat;
}

const spans = new WeakMap<Exact, WeakMap<Exact, Exact>>();

/** Seconds that a duration lasts where a whole note lasts `whole` seconds. */
export function lasting(duration: Exact, whole: Exact): Exact {
  let from = spans.get(whole);
  if (!from) {
    from = new WeakMap();
    spans.set(whole, from);
  }
  let seconds = from.get(duration);
  if (!seconds) {
    seconds = one(duration.mul(whole));
    from.set(duration, seconds);
  }
  return seconds;
}
