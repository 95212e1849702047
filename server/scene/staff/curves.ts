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

/** An arc high enough to clear everything under it. `tops` are the highest points under it, ends included. */
export function arcOver(tops: readonly { readonly x: number; readonly y: number }[]): Arc | undefined {
  const first = tops[0];
  const last = tops.at(-1);
  if (!first || !last || first === last) return undefined;
  const from = { x: first.x, y: first.y - 4 };
  const to = { x: last.x, y: last.y - 4 };
  const width = to.x - from.x;
  const chord = (x: number): number => from.y + ((to.y - from.y) * (x - from.x)) / (width || 1);
  const inTheWay = Math.max(0, ...tops.slice(1, -1).map(({ x, y }) => chord(x) - (y - 5)));
  // The middle of the curve lies at three quarters of its handles' height.
  return { from, to, lift: Math.max(8 + width * 0.05, (inTheWay * 4) / 3 + 3) };
}

/** Height of the arc at x, or undefined beside it. */
export function arcAt({ from, to, lift }: Arc, x: number): number | undefined {
  const t = (x - from.x) / (to.x - from.x || 1);
  if (t < -0.01 || t > 1.01) return undefined;
  return from.y + (to.y - from.y) * t - 3 * lift * t * (1 - t) - BODY / 2;
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
