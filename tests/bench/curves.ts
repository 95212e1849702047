import { mkdirSync, writeFileSync } from 'node:fs';
import type { Figure } from './figure';
import { reached } from './figure';

/** What something costs by the number of notes. */
export interface Curve {
  readonly name: string;
  readonly points: readonly (readonly [notes: number, cost: number])[];
}

const [WIDTH, HEIGHT, EDGE] = [520, 260, 40];

/** The report of a run as one page: every figure beside its goal, and the curves, both axes by powers of ten. */
export function writeReport(path: string, figures: readonly Figure[], curves: readonly Curve[]): void {
  const rows = figures.map(
    (figure) =>
      `<tr><td>${reached(figure) ? 'reached' : '<b>missed</b>'}<td>${figure.ratio.toPrecision(3)}<td>${said(figure)}<td>${escaped(`${figure.what} (${figure.measured})`)}`,
  );
  mkdirSync('out', { recursive: true });
  writeFileSync(
    path,
    `<!doctype html><meta charset="utf-8"><title>Bench</title><style>body{font:14px sans-serif;margin:2em}td{padding:2px 8px}</style>
<h1>Bench</h1><p>Ratios within one run, under Node ${process.version}.</p><table><tr><th><th>ratio<th>goal<th>what\n${rows.join('\n')}</table>
${curves.map(drawn).join('\n')}\n`,
  );
}

function said({ goal }: Figure): string {
  return 'most' in goal ? `at most ${goal.most.toPrecision(3)}` : `at least ${goal.least.toPrecision(3)}`;
}

function drawn({ name, points }: Curve): string {
  const costs = points.map(([, cost]) => Math.max(cost, 0.1));
  const x = scale(
    points.map(([notes]) => notes),
    EDGE,
    WIDTH - EDGE,
  );
  const y = scale(costs, HEIGHT - EDGE, EDGE);
  const at = points.map(([notes], i) => [x(notes), y(costs[i]!)] as const);
  const marks = points.map(
    ([notes, cost], i) =>
      `<circle cx="${at[i]![0]}" cy="${at[i]![1]}" r="3"/><text x="${at[i]![0]}" y="${at[i]![1] - 8}" text-anchor="middle">${cost.toPrecision(3)}</text><text x="${at[i]![0]}" y="${HEIGHT - 12}" text-anchor="middle">${notes}</text>`,
  );
  return `<h2>${escaped(name)}</h2><svg viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" font-size="11" role="img" aria-label="${escaped(name)} by notes"><polyline fill="none" stroke="#10303f" points="${at.map((one) => one.join(',')).join(' ')}"/>${marks.join('')}</svg>`;
}

/** By powers of ten, from the least of the values to the greatest. */
function scale(values: readonly number[], from: number, to: number): (value: number) => number {
  const [low, high] = [Math.log10(Math.min(...values)), Math.log10(Math.max(...values))];
  return (value) => Math.round(from + ((to - from) * (Math.log10(value) - low)) / (high - low || 1));
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
}
