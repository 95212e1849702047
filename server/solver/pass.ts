import { NEVER } from './cost';
import { type Link, type PairTable, type PartedLink, partedStep, stillCost } from './link';
import type { StateSet } from './states';

/**
 * One step of the exact least-cost pass (Viterbi's), forward or backward, over typed arrays and without allocating. It finds costs alone: which
 * state a state is best reached from is asked for the few of a path (`arrivedFrom`).
 */

/**
 * Least cost of each state of `to` over all states of `from`, whose costs so far are `before`. Writes `after`. Costs above NEVER are cut to NEVER.
 */
export function forward(from: StateSet, to: StateSet, link: Link, before: Int32Array, after: Int32Array): void {
  if (link.kind === 'pairs') throughPairs(link, before, after);
  else throughParts(from, to, link, before, after);
}

/** Two rows at a time, after the cheapest state's; rows that can't do better anywhere are passed over. */
function throughPairs({ table, least }: PairTable, before: Int32Array, after: Int32Array): void {
  const size = after.length;
  const count = before.length;
  let cheapest = 0;
  for (let i = 1; i < count; i++) if (before[i]! < before[cheapest]!) cheapest = i;
  let most = 0;
  for (let j = 0, at = cheapest * size; j < size; j++, at++) {
    const cost = lesser(NEVER, before[cheapest]! + table[at]!);
    after[j] = cost;
    if (cost > most) most = cost;
  }
  let waiting = -1;
  for (let i = 0; i < count; i++) {
    if (before[i]! + least[i]! >= most) continue;
    if (waiting < 0) waiting = i;
    else {
      throughRows(table, waiting, before[waiting]!, i, before[i]!, after);
      waiting = -1;
    }
  }
  if (waiting >= 0) throughRows(table, waiting, before[waiting]!, waiting, before[waiting]!, after);
}

function throughRows(table: Int32Array, one: number, soFarOne: number, two: number, soFarTwo: number, after: Int32Array): void {
  const size = after.length;
  for (let j = 0, atOne = one * size, atTwo = two * size; j < size; j++, atOne++, atTwo++) {
    after[j] = lesser(after[j]!, lesser(soFarOne + table[atOne]!, soFarTwo + table[atTwo]!));
  }
}

/** The lesser of two costs, without a branch that the processor could guess wrong: their difference fits into 32 bits. */
function lesser(a: number, b: number): number {
  const gain = (b - a) | 0;
  return (a + (gain & (gain >> 31))) | 0;
}

/** For each class of the next event's states: the least cost with the hand going up or down. Grows as needed and is used again. */
let scratch = { up: new Int32Array(64), down: new Int32Array(64) };

function scratchOf(size: number): typeof scratch {
  if (scratch.up.length < size) scratch = { up: new Int32Array(size * 2), down: new Int32Array(size * 2) };
  return scratch;
}

function throughParts(from: StateSet, to: StateSet, link: PartedLink, before: Int32Array, after: Int32Array): void {
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
    if (home > 0) {
      overGroup(link, link.down, start, end, before, down);
      arrive(0, home, toClass, shift, down, after);
    }
    if (past < size) {
      overGroup(link, link.up, start, end, before, up);
      arrive(past, size, toClass, shift, up, after);
    }
    for (let j = home; j < past; j++) {
      for (let i = start; i < end; i++) {
        const step = steps[fromClass[i]! * columns + toClass[j]!]!;
        const cost = before[i]! + step + stillCost(link, to, from.shape[i]!, to.shape[j]!) + shift[j]!;
        if (cost < after[j]!) after[j] = cost;
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
  { fromClass, leastStay, leastMove }: PartedLink,
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

/** For each class that comes next, the least of cost so far and step over the states of one group, the hand moving up or down. */
function overGroup(
  { fromClass, columns, steps }: PartedLink,
  way: number,
  start: number,
  end: number,
  before: Int32Array,
  best: Int32Array,
): void {
  for (let c = 0; c < columns; c++) best[c] = NEVER * 2;
  for (let i = start; i < end; i++) {
    const sofar = before[i]!;
    if (sofar >= NEVER) continue;
    const row = way + fromClass[i]! * columns;
    for (let c = 0; c < columns; c++) {
      const cost = sofar + steps[row + c]!;
      if (cost < best[c]!) best[c] = cost;
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
  after: Int32Array,
): void {
  for (let j = start; j < end; j++) {
    const cost = best[toClass[j]!]! + shift[j]!;
    if (cost < after[j]!) after[j] = cost;
  }
}

/**
 * The state of `from` that a state of `to` is best reached from, where the costs before and that of the state reached, `cost`, are those of `forward`.
 * Ties go to the cheapest state before, then to the lower.
 */
export function arrivedFrom(from: StateSet, to: StateSet, link: Link, before: Int32Array, state: number, cost: number): number {
  return link.kind === 'pairs'
    ? arrivedThroughPairs(link, to.size, before, state, cost)
    : arrivedThroughParts(from, to, link, before, state, cost);
}

function arrivedThroughPairs({ table, least }: PairTable, size: number, before: Int32Array, state: number, cost: number): number {
  let came = 0;
  let cheapest = NEVER;
  for (let i = 0; i < before.length; i++) {
    const sofar = before[i]!;
    if (sofar >= cheapest || sofar + least[i]! > cost || sofar + table[i * size + state]! !== cost) continue;
    came = i;
    cheapest = sofar;
  }
  return came;
}

function arrivedThroughParts(
  from: StateSet,
  to: StateSet,
  link: PartedLink,
  before: Int32Array,
  state: number,
  cost: number,
): number {
  const { groupStart, groupPlace } = from;
  let came = 0;
  let cheapest = NEVER;
  for (let g = 0; g < groupPlace.length; g++) {
    for (let i = groupStart[g]!; i < groupStart[g + 1]!; i++) {
      const sofar = before[i]!;
      if (sofar >= cheapest || sofar + partedStep(link, from, to, g, i, state) !== cost) continue;
      came = i;
      cheapest = sofar;
    }
  }
  return came;
}

/** Least cost from each state of `from` to the end, given `beyond`: that of each state of `to`, its own cost not included. */
export function backward(from: StateSet, to: StateSet, link: Link, beyond: Int32Array, out: Int32Array): void {
  if (link.kind === 'pairs') backThroughPairs(link, beyond, out);
  else backThroughParts(from, to, link, beyond, out);
}

function backThroughPairs({ table }: PairTable, beyond: Int32Array, out: Int32Array): void {
  const size = beyond.length;
  for (let i = 0, at = 0; i < out.length; i++) {
    let least = NEVER;
    for (let j = 0; j < size; j++, at++) {
      const cost = table[at]! + beyond[j]!;
      if (cost < least) least = cost;
    }
    out[i] = least;
  }
}

function backThroughParts(from: StateSet, to: StateSet, link: PartedLink, beyond: Int32Array, out: Int32Array): void {
  const { groupStart, groupPlace, shape } = from;
  const { placeStart, own } = to;
  const { steps, columns, fromClass, toClass } = link;
  const { up, down } = scratchOf(columns);
  const size = toClass.length;
  for (let g = 0; g < groupPlace.length; g++) {
    const shift = link.hand[g]!;
    const home = placeStart[groupPlace[g]!]!;
    const past = placeStart[groupPlace[g]! + 1]!;
    leastByClass(down, 0, home);
    leastByClass(up, past, size);
    for (let i = groupStart[g]!; i < groupStart[g + 1]!; i++) {
      const row = fromClass[i]! * columns;
      let least = NEVER;
      for (let c = 0; c < columns; c++) {
        const cost = Math.min(down[c]! + steps[link.down + row + c]!, up[c]! + steps[link.up + row + c]!);
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
