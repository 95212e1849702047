import Fraction from 'fraction.js';

/** One written note value: `base` is the part of a whole note without dots; `tuplet` says how many are in the time of how many. */
export interface Value {
  readonly base: number;
  readonly dots: number;
  readonly tuplet?: Ratio;
  /** What it lasts, in whole notes. */
  readonly length: Fraction;
}

export interface Ratio {
  readonly notes: number;
  readonly inTimeOf: number;
}

/** Bases that a sign exists for, 1 to 1/64, longest first. */
const BASES = [1, 2, 4, 8, 16, 32, 64];
const SHORTEST = new Fraction(1, 64);

function oddPart(value: bigint): number {
  let rest = Number(value);
  while (rest > 0 && rest % 2 === 0) rest /= 2;
  return rest;
}

/** The tuplet that a duration belongs to: 1/12 is one of 3 in the time of 2. Undefined for halves, quarters and so on. */
export function tupletOf(length: Fraction): Ratio | undefined {
  const notes = oddPart(length.d);
  return notes > 1 ? { notes, inTimeOf: 2 ** Math.floor(Math.log2(notes)) } : undefined;
}

/**
 * A duration as the signs that write it, to be tied together: 5/8 is a half and an eighth. Dots are used where
 * they save a tie. What is shorter than a 1/64 is written as one.
 */
export function valuesOf(length: Fraction): readonly Value[] {
  const tuplet = tupletOf(length);
  const factor = tuplet ? new Fraction(tuplet.notes, tuplet.inTimeOf) : new Fraction(1);
  const values: Value[] = [];
  let rest = length.mul(factor);
  while (rest.compare(SHORTEST) >= 0) {
    const value = largest(rest);
    values.push({ ...value, length: value.length.div(factor), ...(tuplet && { tuplet }) });
    rest = rest.sub(value.length);
  }
  if (values.length === 0 && rest.compare(0) > 0) values.push({ base: 64, dots: 0, length });
  return values;
}

function largest(rest: Fraction): { base: number; dots: number; length: Fraction } {
  for (const base of BASES) {
    for (const dots of [2, 1, 0]) {
      const length = new Fraction(2 ** (dots + 1) - 1, base * 2 ** dots);
      // A doubly dotted value only where it comes out even.
      if (dots === 2 ? length.equals(rest) : length.compare(rest) <= 0) return { base, dots, length };
    }
  }
  return { base: 64, dots: 0, length: SHORTEST };
}
