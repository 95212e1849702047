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
  // The cheapest groups first: most of the others then turn out unable to do better anywhere, and are passed over.
  const order = cheapestFirst(from, before);
  for (let n = 0; n < groupPlace.length; n++) {
    // Whatever is left can't be reached.
    if (leasts[n]! >= NEVER) break;
    const g = order[n]!;
    const start = groupStart[g]!;
    const end = groupStart[g + 1]!;
    const shift = link.hand[g]!;
    // States are sorted by place: those of this group's own place lie together, lower ones before them.
    const home = placeStart[groupPlace[g]!]!;
    const past = placeStart[groupPlace[g]! + 1]!;
    if (n > 0 && !mayImprove(start, end, before, link, shift, after, home, past)) continue;
    if (end - start <= FEW) {
      for (let i = start; i < end; i++) {
        const sofar = before[i]!;
        if (sofar >= NEVER) continue;
        const row = fromClass[i]! * columns;
        reach(0, home, sofar, link.down + row, i, link, shift, after, came);
        reach(past, size, sofar, link.up + row, i, link, shift, after, came);
      }
    } else {
      if (home > 0) {
        overGroup(link, link.down, start, end, before, down.best, down.arg);
        arrive(0, home, toClass, shift, down.best, down.arg, after, came);
      }
      if (past < size) {
        overGroup(link, link.up, start, end, before, up.best, up.arg);
        arrive(past, size, toClass, shift, up.best, up.arg, after, came);
      }
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

/** Groups by the least cost of their states; of two alike the lower. Good until the next call. */
function cheapestFirst({ groupStart, groupPlace }: StateSet, before: Int32Array): Uint16Array {
  const count = groupPlace.length;
  if (order.length < count) [order, leasts] = [new Uint16Array(count * 2), new Int32Array(count * 2)];
  for (let g = 0; g < count; g++) {
    let least = NEVER * 2;
    for (let i = groupStart[g]!; i < groupStart[g + 1]!; i++) if (before[i]! < least) least = before[i]!;
    let at = g;
    for (; at > 0 && leasts[at - 1]! > least; at--) {
      leasts[at] = leasts[at - 1]!;
      order[at] = order[at - 1]!;
    }
    leasts[at] = least;
    order[at] = g;
  }
  return order;
}

let order = new Uint16Array(64);
let leasts = new Int32Array(64);

/**
 * True where the states `start` to `end` could still do better than what was found: where the hand moves, a step costs no less
 * than the least of its class and the shift; where it stays (states `home` to `past` of the next event) no less than the least of its class.
 */
function mayImprove(
  start: number,
  end: number,
  before: Int32Array,
  { fromClass, leastStay, leastMove }: Link,
  shift: Int32Array,
  after: Int32Array,
  home: number,
  past: number,
): boolean {
  let staying = NEVER * 2;
  let moving = NEVER * 2;
  for (let i = start; i < end; i++) {
    const c = fromClass[i]!;
    staying = Math.min(staying, before[i]! + leastStay[c]!);
    moving = Math.min(moving, before[i]! + leastMove[c]!);
  }
  for (let j = 0; j < home; j++) if (moving + shift[j]! < after[j]!) return true;
  for (let j = home; j < past; j++) if (staying < after[j]!) return true;
  for (let j = past; j < after.length; j++) if (moving + shift[j]! < after[j]!) return true;
  return false;
}

/** Groups of so many states are gone through state by state: to find the least by class first pays for larger ones. */
const FEW = 2;

/** Goes on from one state, the hand moving, to the states `start` to `end` of the next event, where that is less than what they have. */
function reach(
  start: number,
  end: number,
  sofar: number,
  row: number,
  from: number,
  { toClass, steps }: Link,
  shift: Int32Array,
  after: Int32Array,
  came: Uint16Array,
): void {
  for (let j = start; j < end; j++) {
    const cost = sofar + steps[row + toClass[j]!]! + shift[j]!;
    if (cost < after[j]!) {
      after[j] = cost;
      came[j] = from;
    }
  }
}

/** For each class that comes next, the least of cost so far and step over the states of one group, the hand moving up or down. */
function overGroup(
  { fromClass, columns, steps }: Link,
  way: number,
  start: number,
  end: number,
  before: Int32Array,
  best: Int32Array,
  arg: Uint16Array,
): void {
  for (let c = 0; c < columns; c++) best[c] = NEVER * 2;
  for (let i = start; i < end; i++) {
    const sofar = before[i]!;
    if (sofar >= NEVER) continue;
    const row = way + fromClass[i]! * columns;
    for (let c = 0; c < columns; c++) {
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
  const { steps, columns, fromClass, toClass } = link;
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
      for (let c = 0; c < columns; c++) {
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
      for (let c = 0; c < columns; c++) best[c] = NEVER;
      for (let j = start; j < end; j++) {
        const cost = beyond[j]! + own[j]! + shift[j]!;
        const c = toClass[j]!;
        if (cost < best[c]!) best[c] = cost;
      }
    }
  }
}
