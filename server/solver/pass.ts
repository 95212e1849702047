import { NEVER } from './cost';
import { type Link, stillCost } from './link';
import type { StateSet } from './states';

/**
 * One step of the exact least-cost pass, forward or backward, over typed arrays and without allocating:
 * see link.ts for how the cost of a transition is taken apart. Ties go to the cheapest group of states
 * before, then to the lower state.
 */

/** For each class of the next event's states: the least cost with the hand going up or down, and the state that has it. Grows as needed and is used again. */
let scratch = {
  up: { best: new Int32Array(64), arg: new Uint16Array(64) },
  down: { best: new Int32Array(64), arg: new Uint16Array(64) },
};

function scratchOf(size: number): typeof scratch {
  if (scratch.up.best.length < size) {
    const made = () => ({ best: new Int32Array(size * 2), arg: new Uint16Array(size * 2) });
    scratch = { up: made(), down: made() };
  }
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
  const { placeStart, own } = to;
  const { fromClass, toClass, columns, steps } = link;
  const { up, down } = scratchOf(columns);
  const size = after.length;
  after.fill(NEVER);
  // The cheapest group first: most of the others then turn out unable to do better anywhere, and are passed over.
  const cheapest = cheapestGroup(from, before);
  for (let n = 0; n < groupPlace.length; n++) {
    const g = n === 0 ? cheapest : n <= cheapest ? n - 1 : n;
    const start = groupStart[g]!;
    const end = groupStart[g + 1]!;
    const shift = link.hand[g]!;
    // States are sorted by place: those of this group's own place lie together, lower ones before them.
    const home = placeStart[groupPlace[g]!]!;
    const past = placeStart[groupPlace[g]! + 1]!;
    if (n > 0 && !mayImprove(leastOf(before, start, end), shift, after, home, past)) continue;
    if (home > 0) {
      overGroup(link, link.down, start, end, before, down.best, down.arg);
      arrive(0, home, toClass, shift, down.best, down.arg, after, came);
    }
    if (past < size) {
      overGroup(link, link.up, start, end, before, up.best, up.arg);
      arrive(past, size, toClass, shift, up.best, up.arg, after, came);
    }
    for (let j = home; j < past; j++) {
      for (let i = start; i < end; i++) {
        const step = steps[fromClass[i]! * columns + toClass[j]!]!;
        const cost = before[i]! + step + stillCost(link, to, from.shape[i]!, to.shape[j]!) + shift[j]!;
        if (cost < after[j]!) {
          after[j] = cost;
          came[j] = i;
        }
      }
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

/** For each class that comes next, the least of cost so far and step over the states of one group, the hand moving up or down. */
function overGroup(
  { fromClass, classes, columns, steps }: Link,
  way: number,
  start: number,
  end: number,
  before: Int32Array,
  best: Int32Array,
  arg: Uint16Array,
): void {
  for (let n = 0; n < classes.length; n++) best[classes[n]!] = NEVER * 2;
  for (let i = start; i < end; i++) {
    const sofar = before[i]!;
    if (sofar >= NEVER) continue;
    const row = way + fromClass[i]! * columns;
    for (let n = 0; n < classes.length; n++) {
      const c = classes[n]!;
      const cost = sofar + steps[row + c]!;
      if (cost < best[c]!) {
        best[c] = cost;
        arg[c] = i;
      }
    }
  }
}

/** Takes what `overGroup` found on to the states `start` to `end` of the next event, where it is less than what they have. */
function arrive(
  start: number,
  end: number,
  toClass: Uint8Array | Uint16Array,
  shift: Int32Array,
  best: Int32Array,
  arg: Uint16Array,
  after: Int32Array,
  came: Uint16Array,
): void {
  for (let j = start; j < end; j++) {
    const c = toClass[j]!;
    const cost = best[c]! + shift[j]!;
    if (cost < after[j]!) {
      after[j] = cost;
      came[j] = arg[c]!;
    }
  }
}

/** Least cost from each state of `from` to the end, given `beyond`: that of each state of `to`, its own cost not included. */
export function backward(from: StateSet, to: StateSet, link: Link, beyond: Int32Array, out: Int32Array): void {
  const { groupStart, groupPlace, shape } = from;
  const { placeStart, own } = to;
  const { steps, columns, classes, fromClass, toClass } = link;
  const { up, down } = scratchOf(columns);
  const size = toClass.length;
  for (let g = 0; g < groupPlace.length; g++) {
    const shift = link.hand[g]!;
    const home = placeStart[groupPlace[g]!]!;
    const past = placeStart[groupPlace[g]! + 1]!;
    leastByClass(down.best, 0, home);
    leastByClass(up.best, past, size);
    for (let i = groupStart[g]!; i < groupStart[g + 1]!; i++) {
      const row = fromClass[i]! * columns;
      let least = NEVER;
      for (let n = 0; n < classes.length; n++) {
        const c = classes[n]!;
        const cost = Math.min(down.best[c]! + steps[link.down + row + c]!, up.best[c]! + steps[link.up + row + c]!);
        if (cost < least) least = cost;
      }
      for (let j = home; j < past; j++) {
        const step = steps[row + toClass[j]!]!;
        const cost = beyond[j]! + own[j]! + shift[j]! + step + stillCost(link, to, shape[i]!, to.shape[j]!);
        if (cost < least) least = cost;
      }
      out[i] = least;
    }

    function leastByClass(best: Int32Array, start: number, end: number): void {
      for (let n = 0; n < classes.length; n++) best[classes[n]!] = NEVER;
      for (let j = start; j < end; j++) {
        const cost = beyond[j]! + own[j]! + shift[j]!;
        const c = toClass[j]!;
        if (cost < best[c]!) best[c] = cost;
      }
    }
  }
}
