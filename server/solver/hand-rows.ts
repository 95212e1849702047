import { HAND_PLACES } from '../hand/constants';
import { landingAfter, landingCost, shiftCost } from './move';
import type { StateSet } from './states';
import type { TimedFacts } from './timed-facts';

/**
 * By hand place, for each state of a layout with notes of one length: what the shift from there costs in the time there is, with the
 * chance of landing after it. Rows are made when first asked for, by `rowOf`.
 */
export type HandRows = (Int32Array | undefined)[];

/** Different times for a move that are remembered for a layout: a passage has a few durations at a few tempos. */
const MOST_TIMES = 12;

/** Rows are kept with the facts of their layout: the same notes are come to from the same hand places again and again. */
export function rememberedRows(): (to: StateSet, seconds: number) => HandRows {
  const known = new WeakMap<TimedFacts, Map<number, HandRows>>();
  return ({ facts }, seconds) => {
    let times = known.get(facts);
    if (!times) {
      times = new Map();
      known.set(facts, times);
    }
    let rows = times.get(seconds);
    if (!rows) {
      if (times.size >= MOST_TIMES) times.clear();
      rows = new Array(HAND_PLACES).fill(undefined);
      times.set(seconds, rows);
    }
    return rows;
  };
}

export function rowOf(
  { facts, shape, size, groupStart, groupPlace, places, setup }: StateSet,
  place: number,
  seconds: number,
): Int32Array {
  const row = new Int32Array(size);
  for (let g = 0; g < groupPlace.length; g++) {
    const distance = Math.abs(places[groupPlace[g]!]! - places[place]!);
    const shift = shiftCost(distance, seconds);
    const moved = landingAfter(distance, seconds, setup);
    for (let j = groupStart[g]!; j < groupStart[g + 1]!; j++) {
      row[j] = shift + landingCost(facts, shape[j]!, 0, moved) + landingCost(facts, shape[j]!, 1, moved);
    }
  }
  return row;
}
