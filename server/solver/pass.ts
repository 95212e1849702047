import { NEVER } from './cost';
import type { Link } from './link';
import type { StateSet } from './states';

/**
 * One step of the exact least-cost pass, forward or backward, over typed arrays and without
 * allocating: a transition costs two look-ups and an addition (see link.ts for how its cost is taken
 * apart). Ties go to the lower state.
 */

/** For each shape of the next event: the least cost, and the state that has it. Grows as needed and is used again. */
let scratch = { best: new Int32Array(0), arg: new Uint16Array(0) };

function scratchOf(size: number): typeof scratch {
  if (scratch.best.length < size) scratch = { best: new Int32Array(size * 2), arg: new Uint16Array(size * 2) };
  return scratch;
}

/**
 * Least cost of each state of `to` over all states of `from`, whose costs so far are `before`.
 * Writes `after` and, for each state, the state it came from. Costs above NEVER are cut to NEVER.
 */
export function forward(
  from: StateSet,
  to: StateSet,
  link: Link,
  before: Int32Array,
  after: Int32Array,
  came: Uint16Array,
): void {
  const { groupStart, groupPlace } = from;
  const { shape: toShape, placeStart, own } = to;
  const toShapes = to.facts.count;
  const { best, arg } = scratchOf(toShapes);
  const size = after.length;
  after.fill(NEVER);
  // The cheapest group first: most of the others then turn out unable to do better anywhere, and are passed over.
  const cheapest = cheapestGroup(from, before);
  for (let n = 0; n < groupPlace.length; n++) {
    const g = n === 0 ? cheapest : n <= cheapest ? n - 1 : n;
    const start = groupStart[g]!;
    const end = groupStart[g + 1]!;
    const shift = link.hand[g]!;
    // States are sorted by place: those of this group's own place lie together.
    const home = placeStart[groupPlace[g]!]!;
    const past = placeStart[groupPlace[g]! + 1]!;
    if (n > 0 && !mayImprove(leastOf(before, start, end), shift, after, home, past)) continue;
    // Where the hand moves, only the shape that comes next matters, not the place it is taken from.
    overGroup(from.shape, start, end, toShapes, link.away, before, best, arg);
    arrive(0, home, toShape, shift, best, arg, after, came);
    arrive(past, size, toShape, shift, best, arg, after, came);
    if (home < past) {
      overGroup(from.shape, start, end, toShapes, link.still, before, best, arg);
      arrive(home, past, toShape, shift, best, arg, after, came);
    }
  }
  for (let j = 0; j < size; j++) if (after[j]! < NEVER) after[j] = Math.min(NEVER, after[j]! + own[j]!);
}

function cheapestGroup({ groupStart, groupPlace }: StateSet, before: Int32Array): number {
  let cheapest = 0;
  let least = NEVER * 2;
  for (let g = 0; g < groupPlace.length; g++) {
    const cost = leastOf(before, groupStart[g]!, groupStart[g + 1]!);
    if (cost < least) {
      least = cost;
      cheapest = g;
    }
  }
  return cheapest;
}

function leastOf(costs: Int32Array, start: number, end: number): number {
  let least = costs[start]!;
  for (let i = start + 1; i < end; i++) if (costs[i]! < least) least = costs[i]!;
  return least;
}

/**
 * True where a group whose least cost is `least` could still do better than what was found: where the hand
 * moves a step costs no less than the shift, where it stays (states `home` to `past`) no less than nothing.
 */
function mayImprove(least: number, shift: Int32Array, after: Int32Array, home: number, past: number): boolean {
  for (let j = 0; j < home; j++) if (least + shift[j]! < after[j]!) return true;
  for (let j = home; j < past; j++) if (least < after[j]!) return true;
  for (let j = past; j < after.length; j++) if (least + shift[j]! < after[j]!) return true;
  return false;
}

/** For each shape that comes next, the least of cost so far and `step` over the states of one group. */
function overGroup(
  shape: Uint16Array,
  start: number,
  end: number,
  toShapes: number,
  step: Int32Array,
  before: Int32Array,
  best: Int32Array,
  arg: Uint16Array,
): void {
  for (let i = start; i < end; i++) {
    const sofar = before[i]!;
    const row = shape[i]! * toShapes;
    if (i === start) {
      for (let s = 0; s < toShapes; s++) {
        best[s] = sofar + step[row + s]!;
        arg[s] = i;
      }
    } else {
      for (let s = 0; s < toShapes; s++) {
        const cost = sofar + step[row + s]!;
        if (cost < best[s]!) {
          best[s] = cost;
          arg[s] = i;
        }
      }
    }
  }
}

/** Takes what `overGroup` found on to the states `start` to `end` of the next event, where it is less than what they have. */
function arrive(
  start: number,
  end: number,
  shape: Uint16Array,
  shift: Int32Array,
  best: Int32Array,
  arg: Uint16Array,
  after: Int32Array,
  came: Uint16Array,
): void {
  for (let j = start; j < end; j++) {
    const s = shape[j]!;
    const cost = best[s]! + shift[j]!;
    if (cost < after[j]!) {
      after[j] = cost;
      came[j] = arg[s]!;
    }
  }
}

/** Least cost from each state of `from` to the end, given `beyond`: that of each state of `to`, its own cost not included. */
export function backward(from: StateSet, to: StateSet, link: Link, beyond: Int32Array, out: Int32Array): void {
  const { groupStart, groupPlace, shape: fromShape } = from;
  const { shape: toShape, placeStart, own } = to;
  const { away, still } = link;
  const toShapes = to.facts.count;
  const { best } = scratchOf(toShapes);
  const size = toShape.length;
  for (let g = 0; g < groupPlace.length; g++) {
    const shift = link.hand[g]!;
    const home = placeStart[groupPlace[g]!]!;
    const past = placeStart[groupPlace[g]! + 1]!;
    for (let s = 0; s < toShapes; s++) best[s] = NEVER;
    for (let j = 0; j < size; j++) {
      if (j >= home && j < past) continue;
      const cost = beyond[j]! + own[j]! + shift[j]!;
      const s = toShape[j]!;
      if (cost < best[s]!) best[s] = cost;
    }
    for (let i = groupStart[g]!; i < groupStart[g + 1]!; i++) {
      const row = fromShape[i]! * toShapes;
      let least = NEVER;
      for (let s = 0; s < toShapes; s++) {
        const cost = best[s]! + away[row + s]!;
        if (cost < least) least = cost;
      }
      for (let j = home; j < past; j++) {
        const cost = beyond[j]! + own[j]! + shift[j]! + still[row + toShape[j]!]!;
        if (cost < least) least = cost;
      }
      out[i] = least;
    }
  }
}
