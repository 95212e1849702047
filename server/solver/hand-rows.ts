import type { Layout } from './layout';
import { distanceCost, landingAfter, landingCost } from './move';
import type { StateSet } from './states';
import type { TimedFacts } from './timed-facts';

/**
 * By hand place, for each state of a layout with notes of one length: what it costs that the shift from there goes so far, with
 * the chance of landing after it in the time there is. Rows are made when first asked for, by `rowOf`.
 */
export type HandRows = (Int32Array | undefined)[];

/** Different times for a move that are remembered for a layout: a passage has a few durations at a few tempos. */
const MOST_TIMES = 24;

/** Rows are kept with their layout and its facts: the same notes are come to from the same hand places again and again. */
export function rememberedRows(): (to: StateSet, seconds: number, free: boolean) => HandRows {
  const known = new WeakMap<Layout, WeakMap<TimedFacts, Map<number, HandRows>>>();
  return ({ layout, facts, places }, seconds, free) => {
    let lengths = known.get(layout);
    if (!lengths) {
      lengths = new WeakMap();
      known.set(layout, lengths);
    }
    let times = lengths.get(facts);
    if (!times) {
      times = new Map();
      lengths.set(facts, times);
    }
    // Times are positive, so their sign can tell a hand that is free from one that is not.
    const key = free ? -seconds : seconds;
    let rows = times.get(key);
    if (!rows) {
      if (times.size >= MOST_TIMES) times.clear();
      rows = new Array(places.length).fill(undefined);
      times.set(key, rows);
    }
    return rows;
  };
}

export function rowOf(to: StateSet, place: number, seconds: number, free: boolean): Int32Array {
  const { facts, shape, size, groupStart, groupPlace, places, setup } = to;
  const row = new Int32Array(size);
  for (let g = 0; g < groupPlace.length; g++) {
    const distance = Math.abs(places[groupPlace[g]!]! - places[place]!);
    const shift = distanceCost(to, place, groupPlace[g]!, free);
    const moved = landingAfter(distance, seconds, setup);
    for (let j = groupStart[g]!; j < groupStart[g + 1]!; j++) {
      let cost = shift;
      for (let n = 0; n < facts.notes; n++) cost += landingCost(facts, shape[j]!, n, moved);
      row[j] = cost;
    }
  }
  return row;
}
