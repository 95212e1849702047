import type Fraction from 'fraction.js';

/** `3/8`, as the passage language writes it; a whole note is `1/1`. */
export function durationText(duration: Fraction): string {
  return `${duration.s * duration.n}/${duration.d}`;
}
