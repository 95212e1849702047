import Fraction from 'fraction.js';

/** How many notes are written in the time of how many: 3 in the time of 2 for triplets. */
export interface Ratio {
  readonly notes: number;
  readonly inTimeOf: number;
}

/** One note as it is written. */
export interface NoteValue {
  /** What its head, stem and flags stand for by themselves, of a whole note: 1/8, or 2 for a breve. Absent where no sign is as short. */
  readonly sign?: Fraction;
  readonly dots: number;
  readonly tuplet?: Ratio;
  /** What it lasts, in whole notes. */
  readonly length: Fraction;
}

/** Tuplets of more notes than this are a slip of the pen, not a rhythm. */
const MOST_IN_TUPLET = 1000n;

/** The tuplet that a duration belongs to: 1/12 is one of 3 in the time of 2. Undefined for halves, quarters and so on. */
export function tupletOf(length: Fraction): Ratio | undefined {
  let odd = length.d;
  while (odd % 2n === 0n) odd /= 2n;
  if (odd === 1n || odd > MOST_IN_TUPLET) return undefined;
  const notes = Number(odd);
  return { notes, inTimeOf: 2 ** Math.floor(Math.log2(notes)) };
}

/** The signs there are: `longest` and `shortest` of a whole note, powers of two. */
export interface Signs {
  readonly longest: Fraction;
  readonly shortest: Fraction;
}

/**
 * The notes that write a duration, longest first, to be tied together: 5/8 is a half and an eighth. Dots are used where they
 * save a tie. What is left shorter than the shortest sign comes last, without one.
 */
export function noteValues(length: Fraction, signs: Signs): readonly NoteValue[] {
  const tuplet = tupletOf(length);
  const factor = tuplet ? new Fraction(tuplet.notes, tuplet.inTimeOf) : new Fraction(1);
  const values: NoteValue[] = [];
  let left = length.mul(factor);
  while (left.compare(signs.shortest) >= 0) {
    const value = longestWithin(left, signs);
    values.push({ ...value, length: value.length.div(factor), ...(tuplet && { tuplet }) });
    left = left.sub(value.length);
  }
  if (left.compare(0) > 0) values.push({ dots: 0, length: left.div(factor) });
  return values;
}

function longestWithin(left: Fraction, { longest, shortest }: Signs): NoteValue {
  for (let sign = longest; sign.compare(shortest) > 0; sign = sign.div(2)) {
    for (const dots of [2, 1, 0]) {
      const length = sign.mul(2 ** (dots + 1) - 1, 2 ** dots);
      // A doubly dotted value only where it comes out even.
      if (dots === 2 ? length.equals(left) : length.compare(left) <= 0) return { sign, dots, length };
    }
  }
  // Less than twice the shortest is left; a dot on it would stand for a sign that there is none of.
  return { sign: shortest, dots: 0, length: shortest };
}
