import { cents } from '../music/temperament';

/** A just interval between two notes, as the frequency ratio upper : lower. */
export interface JustInterval {
  readonly upper: number;
  readonly lower: number;
  /** Trade name of the interval less its whole octaves: `P5`, `m3`; `P1` for octaves and unisons. */
  readonly name: string;
  /** Whole octaves on top of it. */
  readonly octaves: number;
}

/** How two notes sound together. */
export interface DoubleStopIntonation {
  readonly just: JustInterval;
  /** Cents by which the sounding interval is wider than the just one. */
  readonly cents: number;
  /** Beats per second where the lowest partials that should agree meet (Helmholtz); 0 when the interval is pure. */
  readonly beats: number;
  /** Hz, where those partials meet. */
  readonly at: number;
}

/** Within an octave, five-limit, with the septimal ones that seventh partials bring; no two nearer than `HEARD_WITHIN`. */
const RATIOS: readonly (readonly [upper: number, lower: number, name: string])[] = [
  [1, 1, 'P1'],
  [16, 15, 'm2'],
  [10, 9, 'M2'],
  [9, 8, 'M2'],
  [8, 7, 'M2'],
  [7, 6, 'm3'],
  [6, 5, 'm3'],
  [5, 4, 'M3'],
  [4, 3, 'P4'],
  [7, 5, 'd5'],
  [10, 7, 'A4'],
  [3, 2, 'P5'],
  [8, 5, 'm6'],
  [5, 3, 'M6'],
  [7, 4, 'm7'],
  [16, 9, 'm7'],
  [9, 5, 'm7'],
  [15, 8, 'M7'],
];

/** A simpler ratio is heard rather than a nearer one as long as it is within this many cents. */
const HEARD_WITHIN = 20;

function reduced(upper: number, lower: number): readonly [number, number] {
  return upper % 2 === 0 && lower % 2 === 0 ? reduced(upper / 2, lower / 2) : [upper, lower];
}

/** The just interval that two frequencies in Hz (in either order) come nearest to, and what it lacks. */
export function doubleStopIntonation(a: number, b: number): DoubleStopIntonation {
  const low = Math.min(a, b);
  const high = Math.max(a, b);
  const wide = cents(high / low);
  // A little under an octave counts as a flat octave, not as something above a seventh.
  const candidates = RATIOS.flatMap(([upper, lower, name]) => {
    const octaves = Math.max(0, Math.round((wide - cents(upper / lower)) / 1200));
    const [p, q] = reduced(upper * 2 ** octaves, lower);
    return [{ just: { upper: p, lower: q, name, octaves }, off: wide - cents(p / q) }];
  });
  const near = candidates.filter(({ off }) => Math.abs(off) <= HEARD_WITHIN);
  const best =
    near.length > 0
      ? near.reduce((x, y) => (y.just.upper * y.just.lower < x.just.upper * x.just.lower ? y : x))
      : candidates.reduce((x, y) => (Math.abs(y.off) < Math.abs(x.off) ? y : x));
  const { upper, lower } = best.just;
  return { just: best.just, cents: best.off, beats: Math.abs(upper * low - lower * high), at: upper * low };
}
