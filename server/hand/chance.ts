import { FINGERTIP, SHORTEST_MOVE, STRAINED, TOGETHER_SHARE } from './constants';
import type { Skill } from './skill';

/**
 * Variance, mm², of where a finger comes down in a hand that did not move, where a cent is `perCent` mm. `open` is how far the
 * hand is opened past comfortable, 0 to 1 (see reach.ts).
 */
export function stillVariance({ still }: Skill, perCent: number, open = 0): number {
  return (FINGERTIP ** 2 + (still * perCent) ** 2) * (1 + STRAINED * open) ** 2;
}

/** Variance, mm², of the space between two fingers set down together. */
export function spacingVariance({ spacing }: Skill, open = 0): number {
  return (spacing * (1 + STRAINED * open)) ** 2;
}

/** Variance, mm², that a move of the hand by `distance` mm in `seconds` adds: (k D / T)² (Schmidt et al. 1979). */
export function shiftVariance({ shift }: Skill, distance: number, seconds: number): number {
  return ((shift * distance) / Math.max(seconds, SHORTEST_MOVE)) ** 2;
}

/** Chance, 0 to 1, that finger and bow come near enough together on a note of `seconds` with a bow of its own. */
export function chanceTogether({ together }: Skill, seconds: number): number {
  return chanceWithin(TOGETHER_SHARE * seconds, together);
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
