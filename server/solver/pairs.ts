import type { Layout } from './layout';
import { hops, kept } from './move';

/** A pair of shapes in one byte: how far the bow leans (half strings), how many fingers hop, which notes are kept. */
export const LEAN_MASK = 7;
export const HOP_SHIFT = 3;
export const KEPT_SHIFT = 6;

/** For every shape of the first layout, its pairs with every shape of the second. */
export type Pairs = (from: Layout, to: Layout) => Uint8Array;

/** Pairs depend on neither time nor loudness, and the same notes follow each other again and again, so they are kept as long as the layouts are. */
export function pairsOf(): Pairs {
  const known = new WeakMap<Layout, WeakMap<Layout, Uint8Array>>();
  return (from, to) => {
    let row = known.get(from);
    if (!row) {
      row = new WeakMap();
      known.set(from, row);
    }
    let pairs = row.get(to);
    if (!pairs) {
      pairs = pack(from, to);
      row.set(to, pairs);
    }
    return pairs;
  };
}

function pack({ facts: from }: Layout, { facts: to }: Layout): Uint8Array {
  const pairs = new Uint8Array(to.count * from.count);
  let at = 0;
  for (let a = 0; a < from.count; a++) {
    for (let b = 0; b < to.count; b++) {
      pairs[at++] =
        Math.abs(from.level[a]! - to.level[b]!) |
        (hops(from, a, to, b) << HOP_SHIFT) |
        (Number(kept(from, a, to, b, 0)) << KEPT_SHIFT) |
        (Number(kept(from, a, to, b, 1)) << (KEPT_SHIFT + 1));
    }
  }
  return pairs;
}
