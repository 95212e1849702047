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

const SIZES = RATIOS.map(([upper, lower]) => cents(upper / lower));

/** The just interval that two frequencies in Hz (in either order) come nearest to, and what it lacks. */
export function doubleStopIntonation(a: number, b: number): DoubleStopIntonation {
  const low = Math.min(a, b);
  const high = Math.max(a, b);
  const wide = cents(high / low);
  let nearest = 0;
  let simplest = -1;
  let [least, simple] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let i = 0; i < RATIOS.length; i++) {
    const away = Math.abs(beyond(wide, i));
    if (away < least) [nearest, least] = [i, away];
    if (away > HEARD_WITHIN) continue;
    const { upper, lower } = justInterval(i, octavesIn(wide, i));
    if (upper * lower < simple) [simplest, simple] = [i, upper * lower];
  }
  const best = simplest < 0 ? nearest : simplest;
  const just = justInterval(best, octavesIn(wide, best));
  const { upper, lower } = just;
  return { just, cents: beyond(wide, best), beats: Math.abs(upper * low - lower * high), at: upper * low };
}

/** Whole octaves on top of a ratio that come nearest to an interval. A little under an octave counts as a flat octave, not as something above a seventh. */
function octavesIn(wide: number, ratio: number): number {
  return Math.max(0, Math.round((wide - SIZES[ratio]!) / 1200));
}

/** Cents by which an interval is wider than a ratio with its octaves. */
function beyond(wide: number, ratio: number): number {
  return wide - SIZES[ratio]! - 1200 * octavesIn(wide, ratio);
}

function justInterval(ratio: number, octaves: number): JustInterval {
  const [upper, lower, name] = RATIOS[ratio]!;
  let [p, q] = [upper * 2 ** octaves, lower];
  while (p % 2 === 0 && q % 2 === 0) [p, q] = [p / 2, q / 2];
  return { upper: p, lower: q, name, octaves };
}
