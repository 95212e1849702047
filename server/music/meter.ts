import Fraction from 'fraction.js';
import type { Exact } from './time';

export interface Meter {
  readonly count: number;
  /** 4 for quarters: the beat is `1/unit`. */
  readonly unit: number;
}

export interface Tempo {
  readonly beat: Exact;
  readonly bpm: number;
  /** Nobody wrote or asked for it. */
  readonly assumed?: true;
}

/** What is counted as one, in whole notes: a note of the meter's unit, or three of them in compound time (3/8, 6/8, 9/16). */
export function pulseOf({ count, unit }: Meter): Fraction {
  return unit >= 8 && count % 3 === 0 ? new Fraction(3, unit) : new Fraction(1, unit);
}

const QUARTER = new Fraction(1, 4);

/** What is beamed together, in whole notes: what is counted as one, but no less than a quarter; without a meter quarters. */
export function beamGroupOf(meter: Meter | undefined): Fraction {
  const pulse = meter ? pulseOf(meter) : QUARTER;
  return pulse.compare(QUARTER) > 0 ? pulse : QUARTER;
}
