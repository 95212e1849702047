import Fraction from 'fraction.js';

/** Reads an exact fraction of a whole note, `1/8`, `3/8`, `1/4.` (a dot adds half). `undefined` for anything else, and for zero. */
export function parseDuration(text: string): Fraction | undefined {
  const parts = /^(\d{1,6})\/(\d{1,6})(\.?)$/.exec(text);
  if (!parts) return undefined;
  const [, numerator, denominator, dot] = parts;
  if (Number(numerator) === 0 || Number(denominator) === 0) return undefined;
  const plain = new Fraction(Number(numerator), Number(denominator));
  return dot ? plain.mul(3, 2) : plain;
}

/** `3/8`, as the passage language writes it; a whole note is `1/1`. */
export function printDuration(duration: Fraction): string {
  return `${duration.s * duration.n}/${duration.d}`;
}
