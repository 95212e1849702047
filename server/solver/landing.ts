import { chanceWithin, spacingVariance, stillVariance } from '../hand/chance';
import { centsToSpare } from '../hand/intonation';
import type { Skill } from '../hand/skill';
import { fromNats } from './cost';

/** What one finger must hit. Lengths are mm along the string. */
export interface Landing {
  /** A stopping finger is judged by ear; a touching one must find its node; a second finger of a shape keeps its space from the first. */
  readonly kind: 'stop' | 'touch' | 'spacing';
  /** How far it may miss: for a stopping finger by each cent there is to spare, for the others at all. */
  readonly room: number;
  /** Of a cent, where the finger is. */
  readonly perCent: number;
  /** How far the hand is opened past comfortable, 0 to 1. */
  readonly open: number;
}

/** How far a finger may miss for a note of `seconds`, mm. */
export function roomFor({ kind, room }: Landing, skill: Skill, seconds: number): number {
  return kind === 'stop' ? room * centsToSpare(skill, seconds) : room;
}

/** Variance of the finger in a hand that did not move, mm². */
export function varianceOf({ kind, perCent, open }: Landing, skill: Skill): number {
  return kind === 'spacing' ? spacingVariance(skill, open) : stillVariance(skill, perCent, open);
}

/** Steps of the table for each standard deviation of tolerance. */
const STEPS = 2048;
/** Ratios of tolerance to error from here up can't miss, to the precision of a cost. */
const LARGEST = 6;

/** By step of the ratio, one more than what it costs; 0 until somebody asks: most passages want a few hundred of the steps. */
const MISSED = new Int32Array(LARGEST * STEPS + 1);

function workedOut(step: number): number {
  const cost = fromNats(-Math.log(chanceWithin((step + 0.5) / STEPS, 1)));
  MISSED[step] = cost + 1;
  return cost;
}

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
  if (tolerance === 0 || i >= MISSED.length) return 0;
  const known = MISSED[i]!;
  return known > 0 ? known - 1 : workedOut(i);
}
