import type { PitchCurve } from '../protocol/heard';

/** What a curve comes to. */
export interface Intonation {
  /** Cents above the written pitch: the middle of the vibrato, where there is one. */
  readonly cents: number;
  /** Standard deviation about that, the vibrato taken out, cents. */
  readonly wander: number;
  /** Hz, and cents to either side. */
  readonly vibrato?: { readonly rate: number; readonly depth: number };
}

/** Rates of vibrato tried, Hz (common practice, no source), and the cents below which a swing is no vibrato. */
const RATES = { least: 3.8, most: 8, step: 0.3 } as const;
const LEAST_DEPTH = 5;
/** Periods that a vibrato shows at least. */
const LEAST_PERIODS = 1;
/** Share of the scatter that a vibrato explains at least. */
const EXPLAINS = 0.6;

/** Undefined without a frame. A vibrato is a sine fitted by least squares at the rate that leaves least: its middle is the note, however many swings there were. */
export function intonationOf({ seconds, cents }: PitchCurve): Intonation | undefined {
  if (cents.length === 0) return undefined;
  const middle = medianOf(cents);
  const scatter = meanSquare(cents.map((each) => each - middle));
  const plain: Intonation = { cents: middle, wander: Math.sqrt(scatter) };
  const length = (seconds.at(-1) ?? 0) - (seconds[0] ?? 0);
  let best = plain;
  for (let rate = RATES.least; rate <= RATES.most; rate += RATES.step) {
    if (length * rate < LEAST_PERIODS) continue;
    const fit = fitted(seconds, cents, rate);
    if (fit && fit.wander < best.wander && (fit.vibrato?.depth ?? 0) >= LEAST_DEPTH) best = fit;
  }
  return best.wander ** 2 < (1 - EXPLAINS) * scatter ? best : plain;
}

/** Constant, cosine and sine by the normal equations. */
function fitted(seconds: readonly number[], cents: readonly number[], rate: number): Intonation | undefined {
  const rows = seconds.map((at) => [1, Math.cos(2 * Math.PI * rate * at), Math.sin(2 * Math.PI * rate * at)] as const);
  const a = [0, 1, 2].map((i) => [
    ...[0, 1, 2].map((j) => rows.reduce((sum, row) => sum + (row[i] as number) * (row[j] as number), 0)),
    rows.reduce((sum, row, at) => sum + (row[i] as number) * (cents[at] as number), 0),
  ]);
  const [middle, cosine, sine] = solved(a) ?? [];
  if (middle === undefined || cosine === undefined || sine === undefined) return undefined;
  const left = rows.map((row, i) => (cents[i] as number) - middle - cosine * row[1] - sine * row[2]);
  return { cents: middle, wander: Math.sqrt(meanSquare(left)), vibrato: { rate, depth: Math.hypot(cosine, sine) } };
}

/** Gauss's elimination of three equations; undefined where they say the same. */
function solved(rows: number[][]): readonly number[] | undefined {
  for (let i = 0; i < 3; i++) {
    const pivot = rows.slice(i).reduce((most, row) => (Math.abs(row[i] as number) > Math.abs(most[i] as number) ? row : most));
    if (Math.abs(pivot[i] as number) < 1e-9) return undefined;
    rows.splice(rows.indexOf(pivot), 1);
    rows.splice(i, 0, pivot);
    for (const row of rows) {
      if (row === pivot) continue;
      const factor = (row[i] as number) / (pivot[i] as number);
      for (let j = i; j < 4; j++) row[j] = (row[j] as number) - factor * (pivot[j] as number);
    }
  }
  return rows.map((row, i) => (row[3] as number) / (row[i] as number));
}

export function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? (sorted[half] as number) : ((sorted[half - 1] ?? 0) + (sorted[half] ?? 0)) / 2;
}

function meanSquare(values: readonly number[]): number {
  return values.reduce((sum, each) => sum + each * each, 0) / values.length;
}
