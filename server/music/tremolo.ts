import Fraction from 'fraction.js';

/** Strokes through a stem that mean as fast as the bow goes (common practice, no source). */
export const UNMEASURED = 3;

/** The value that a note with so many strokes through its stem is repeated in: each halves the eighth, or the note's own flagged value. */
export function tremoloValue(duration: Fraction, strokes: number): Fraction {
  return new Fraction(1, 4 * 2 ** (strokes + flagsOf(duration)));
}

/** Strokes through the stem of a note repeated in `value`; at least one. */
export function tremoloStrokes(duration: Fraction, value: Fraction): number {
  const beams = Math.round(Math.log2(1 / (4 * value.valueOf())));
  return Math.min(8, Math.max(1, beams - flagsOf(duration)));
}

/** Flags that the note has by its own length: 1 for an eighth and its dotted fellows. */
function flagsOf(duration: Fraction): number {
  return Math.max(0, Math.floor(-Math.log2(duration.valueOf() * 4) + 1e-9) + (isPlain(duration) ? 0 : 1));
}

function isPlain(duration: Fraction): boolean {
  return duration.n === 1n;
}
