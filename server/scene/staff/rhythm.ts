import Fraction from 'fraction.js';
import { noteValues, type Ratio } from '../../music/note-values';

/** One written note value: `base` is the part of a whole note without dots; `tuplet` says how many are in the time of how many. */
export interface Value {
  readonly base: number;
  readonly dots: number;
  readonly tuplet?: Ratio;
  /** What it lasts, in whole notes. */
  readonly length: Fraction;
}

/** The engraver has signs from a whole note down to this one. */
const SHORTEST = 64;
const SIGNS = { longest: new Fraction(1), shortest: new Fraction(1, SHORTEST) };

/** A duration as the signs that write it; what is shorter than the shortest sign is written as one. */
export function printedValues(length: Fraction): readonly Value[] {
  const values = noteValues(length, SIGNS).flatMap(({ sign, ...value }) => (sign ? [{ ...value, base: Number(sign.d) }] : []));
  return values.length === 0 && length.compare(0) > 0 ? [{ base: SHORTEST, dots: 0, length }] : values;
}
