import type { Layout } from './layout';
import { hops, kept } from './move';

/** A pair of shapes in one byte: how many fingers hop where more than one is down, which notes are kept. */
export const HOP_MASK = 7;
export const KEPT_SHIFT = 3;

/** For every shape of the first layout, its pairs with those shapes of the second that can be taken from the same hand place. */
export type Pairs = (from: Layout, to: Layout) => Uint8Array;

/** Bytes of pairs to keep. A long passage of nothing but double stops with hundreds of shapes each could ask for ten times as much. */
const MOST_KEPT = 64 * 2 ** 20;

/** Pairs depend on neither time nor loudness, and the same notes follow each other again and again, so they are kept as long as the layouts are. */
export function pairsOf(): Pairs {
  let known = new WeakMap<Layout, WeakMap<Layout, Uint8Array>>();
  let bytes = 0;
  return (from, to) => {
    if (bytes > MOST_KEPT) {
      known = new WeakMap();
      bytes = 0;
    }
    let row = known.get(from);
    if (!row) {
      row = new WeakMap();
      known.set(from, row);
    }
    let pairs = row.get(to);
    if (!pairs) {
      pairs = pack(from, to);
      row.set(to, pairs);
      bytes += pairs.length;
    }
    return pairs;
  };
}

/** No pair is written so: it has bits that no pair has. */
const UNKNOWN = 255;

/**
 * Only shapes that can be taken from one hand place ever follow each other with the hand still, and only these pairs are asked
 * for: of double stops with hundreds of shapes each that is one pair in ten.
 */
function pack(from: Layout, to: Layout): Uint8Array {
  const count = to.facts.count;
  const pairs = new Uint8Array(from.facts.count * count).fill(UNKNOWN);
  for (let state = 0; state < from.size; state++) {
    const place = from.place[state]!;
    const a = from.shape[state]!;
    for (let next = to.placeStart[place]!; next < to.placeStart[place + 1]!; next++) {
      const b = to.shape[next]!;
      if (pairs[a * count + b] === UNKNOWN) pairs[a * count + b] = packed(from, a, to, b);
    }
  }
  return pairs;
}

function packed({ facts: from }: Layout, a: number, { facts: to }: Layout, b: number): number {
  // A single finger that hops is a habit of the lead (see step.ts).
  const hopping = Math.max(from.fingers[a]!, to.fingers[b]!) > 1 ? hops(from, a, to, b) : 0;
  let pair = hopping;
  for (let n = 0; n < to.notes; n++) if (kept(from, a, to, b, n)) pair |= 1 << (KEPT_SHIFT + n);
  return pair;
}
