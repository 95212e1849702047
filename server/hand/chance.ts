import { centsPerMm } from '../instrument/places';
import { IN_TUNE, LANDING_SHIFT, LANDING_SPACING, LANDING_STILL, SHORTEST_MOVE } from './constants';
import type { Hand } from './hand';

/**
 * Standard deviation of where a finger lands, mm: sigma^2 = still^2 + (k D / T)^2, for a hand moved
 * `distance` mm in `seconds` (Schmidt et al. 1979).
 */
export function landingError(hand: Hand, distance: number, seconds: number): number {
  const still = hand.landing?.still ?? LANDING_STILL;
  const shift = ((hand.landing?.shift ?? LANDING_SHIFT) * distance) / Math.max(seconds, SHORTEST_MOVE);
  return Math.sqrt(still * still + shift * shift);
}

/** Standard deviation of the spacing within a two-finger shape, mm. */
export function spacingError(hand: Hand): number {
  return hand.landing?.spacing ?? LANDING_SPACING;
}

/** How far a stopped note may be off and still pass for in tune, mm, on a sounding length in mm. */
export function stoppedTolerance(hand: Hand, length: number): number {
  return (hand.landing?.inTune ?? IN_TUNE) / centsPerMm(length);
}

/** Chance, 0 to 1, that a normal error of standard deviation `error` stays within `tolerance` either side. */
export function chanceWithin(tolerance: number, error: number): number {
  return erf(tolerance / (error * Math.SQRT2));
}

/**
 * The error function, for x from 0 up. Power series below 2, continued fraction of erfc from there
 * (Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.6 and 7.1.14); relative error under 1e-12.
 */
export function erf(x: number): number {
  if (x < 2) {
    let term = x;
    let sum = x;
    for (let n = 1; term > sum * 1e-16; n++) {
      term *= (2 * x * x) / (2 * n + 1);
      sum += term;
    }
    return (2 / Math.sqrt(Math.PI)) * Math.exp(-x * x) * sum;
  }
  let fraction = 0;
  for (let n = 60; n > 0; n--) fraction = n / 2 / (x + fraction);
  return 1 - Math.exp(-x * x) / (Math.sqrt(Math.PI) * (x + fraction));
}
