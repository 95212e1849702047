import Fraction from 'fraction.js';
import { NOTE_VALUES } from './direction';

/** A duration as notation shows it: a note value with dots, perhaps inside a tuplet. */
export interface NoteValue {
  readonly duration: Fraction;
  /** MusicXML's name; absent where no note value is as short. */
  readonly type?: string;
  readonly dots: number;
  /** `actual` notes in the time of `normal`. */
  readonly tuplet?: { readonly actual: number; readonly normal: number };
  /** Beams or flags: 0 for a quarter and longer, 1 for an eighth. */
  readonly flags: number;
}

const VALUES = Object.entries(NOTE_VALUES).map(([type, value]) => ({ type, value: new Fraction(...value) }));
const ONE = new Fraction(1);
const QUARTER = new Fraction(1, 4);
const MOST_DOTS = 2;

/**
 * The note values, longest first, that tied together last `duration` of a whole note. A denominator
 * with an odd factor `m` becomes a tuplet of `m` in the time of the next lower power of two.
 */
export function noteValues(duration: Fraction): readonly NoteValue[] {
  const odd = oddPart(duration.d);
  const tuplet = odd > 1n && odd < 1000n ? { actual: Number(odd), normal: 2 ** Math.floor(Math.log2(Number(odd))) } : undefined;
  const ratio = tuplet ? new Fraction(tuplet.normal, tuplet.actual) : ONE;
  let left = duration.div(ratio);
  const values: NoteValue[] = [];
  while (left.compare(0) > 0) {
    const found = longestWithin(left);
    if (!found) return [...values, { duration: left.mul(ratio), dots: 0, flags: 0 }];
    values.push({ ...found, duration: found.duration.mul(ratio), ...(tuplet && { tuplet }) });
    left = left.sub(found.duration);
  }
  return values;
}

/** The one note value of this length, without a tuplet; undefined where there is none. */
export function plainValue(duration: Fraction): NoteValue | undefined {
  const values = noteValues(duration);
  return values.length === 1 && !values[0]?.tuplet && values[0]?.type !== undefined ? values[0] : undefined;
}

function longestWithin(left: Fraction): NoteValue | undefined {
  for (const { type, value } of VALUES) {
    if (value.compare(left) > 0) continue;
    for (let dots = MOST_DOTS; dots >= 0; dots--) {
      const duration = value.mul(2 ** (dots + 1) - 1, 2 ** dots);
      const rest = left.sub(duration);
      // A dotted value only where it is the whole: 5/8 is a half and an eighth, not a dotted quarter and a quarter.
      if (rest.equals(0) || (dots === 0 && rest.compare(0) > 0)) {
        return { duration, type, dots, flags: flagsOf(value) };
      }
    }
  }
  return undefined;
}

function flagsOf(value: Fraction): number {
  let flags = 0;
  for (let v = value; v.compare(QUARTER) < 0; v = v.mul(2)) flags++;
  return flags;
}

function oddPart(n: bigint): bigint {
  let odd = n;
  while (odd % 2n === 0n) odd /= 2n;
  return odd;
}
