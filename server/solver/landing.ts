import { chanceWithin } from '../hand/chance';
import { fromNats } from './cost';

/** Steps of the table for each standard deviation of tolerance. */
const STEPS = 2048;
/** Ratios of tolerance to error from here up can't miss, to the precision of a cost. */
const LARGEST = 6;

const MISSED = Int32Array.from({ length: LARGEST * STEPS + 1 }, (_, i) =>
  fromNats(-Math.log(chanceWithin((i + 0.5) / STEPS, 1))),
);

/** What `missed` wants of a landing error, mm: worked out once where many fingers land with the same error. */
export function sharpness(error: number): number {
  return STEPS / error;
}

/**
 * Minus the log of the chance that a finger lands within `tolerance` mm (0: no finger has to land), in the solver's whole numbers:
 * read from a table, to the nearest 1/2048 of a standard deviation (within 0.0005 nats for chances above a third).
 */
export function missed(tolerance: number, sharp: number): number {
  const i = (tolerance * sharp) | 0;
  return tolerance === 0 || i >= MISSED.length ? 0 : MISSED[i]!;
}
