import { filled } from '../look';
import { num, tag } from '../svg';

/** Where a slur runs: from x to x at these heights, arching over `clear` (the highest of what lies under it). */
export interface Arc {
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
  readonly lift: number;
}

/** Thickness in the middle, px. */
const BODY = 3.2;

/** Arched higher than this an arc looks like a hoop: its ends are raised instead, px. */
const HIGHEST = 34;
/** Between the middle of an arc and what lies under it, px. */
const CLEAR = 6;

/** An arc high enough to clear everything under it. `tops` are the highest points under it, ends included. */
export function arcOver(tops: readonly { readonly x: number; readonly y: number }[]): Arc | undefined {
  const first = tops[0];
  const last = tops.at(-1);
  if (!first || !last || first === last) return undefined;
  const width = last.x - first.x;
  const inner = tops.map(({ x, y }) => ({ t: (x - first.x) / (width || 1), y: y - CLEAR })).filter(({ t }) => t > 0 && t < 1);
  const usual = 8 + width * 0.05;
  const most = Math.max(HIGHEST, usual);
  let [start, end] = [first.y - 4, last.y - 4];
  const rise = ({ t, y }: { readonly t: number; readonly y: number }): number => start + (end - start) * t - y;
  for (const point of inner) {
    const short = rise(point) - most * bulge(point.t);
    if (short <= 0) continue;
    if (point.t < 0.5) start -= short / (1 - point.t);
    else end -= short / point.t;
  }
  const lift = Math.max(usual, ...inner.map((point) => rise(point) / bulge(point.t)));
  return { from: { x: first.x, y: start }, to: { x: last.x, y: end }, lift };
}

/** Share of its handles' height that a curve reaches over its chord, a share `t` of the way along: three quarters in the middle. */
function bulge(t: number): number {
  return 3 * t * (1 - t);
}

/** Height of the arc at x, or undefined beside it. */
export function arcAt({ from, to, lift }: Arc, x: number): number | undefined {
  const t = (x - from.x) / (to.x - from.x || 1);
  if (t < -0.01 || t > 1.01) return undefined;
  return from.y + (to.y - from.y) * t - lift * bulge(t) - BODY / 2;
}

export function drawArc({ from, to, lift }: Arc): string {
  const third = (to.x - from.x) / 4;
  const handles = (extra: number): [number, number, number, number] => [
    from.x + third,
    from.y - lift - extra,
    to.x - third,
    to.y - lift - extra,
  ];
  const [ax, ay, bx, by] = handles(BODY / 2);
  const [cx, cy, dx, dy] = handles(-BODY / 2);
  const d = `M${num(from.x)} ${num(from.y)}C${[ax, ay, bx, by, to.x, to.y].map(num).join(' ')}C${[dx, dy, cx, cy, from.x, from.y].map(num).join(' ')}Z`;
  return tag('path', { ...filled('ink', 'pw-slur'), d });
}
