import { keptEnds } from '../passage/kept-ends';
import type { Passage, PassageEvent } from '../passage/passage';
import { NEVER } from './cost';
import { entry } from './link';
import { arrivedFrom, backward, forward } from './pass';
import type { StateSet } from './states';
import type { Tables } from './tables';
import { SEEN } from './view';

/**
 * The states of all events of a passage and the least cost of reaching each. Costs are kept relative to
 * the best state of their event (`base` has what was taken off), so that where an edit no longer makes a
 * difference the numbers are the same as before, and the pass can stop.
 */
export interface Lattice {
  readonly passage: Passage;
  readonly columns: readonly Column[];
}

/** One event. Columns are never changed once made, so lattices share them. */
export interface Column {
  readonly states: StateSet;
  /** True where nothing before it counts: the first event, or the one after a gap or an opening rest. */
  readonly fresh: boolean;
  /** Least cost of each state less `base`; the least is 0. Empty in a gap. */
  readonly cost: Int32Array;
  readonly base: number;
  /** True for an event that can't be played after the one before it though it can by itself (a held note). */
  readonly torn: boolean;
}

/**
 * The lattice of a passage. With an earlier one of the same setup, only the columns that the change can
 * reach are computed: from the first event that differs to the first, past the last that differs, whose
 * costs come out as they were.
 */
export function lattice(passage: Passage, tables: Tables, earlier?: Lattice): Lattice {
  const steps = latticeSteps(passage, tables, earlier);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** Columns made between two yields of `latticeSteps`: a few milliseconds' work, the tables cold. */
const STRIDE = 10;

/** The same in steps: whoever runs it decides between two of them whether to go on. */
export function* latticeSteps(passage: Passage, tables: Tables, earlier?: Lattice): Generator<void, Lattice> {
  const old = earlier && earlier.passage.setup === passage.setup ? earlier.columns : [];
  const count = passage.events.length;
  const was = earlier?.passage.events ?? [];
  let { head, tail } = keptEnds(count, old.length, (a, b) => sameEvent(passage.events[a]!, was[b]!));
  const keyed = sameKey(passage, earlier?.passage);
  if (keyed && head === count && count === old.length) return { passage, columns: old };
  // What changed is seen from so many events away.
  head = keyed ? Math.max(0, head - SEEN) : 0;
  tail = keyed ? Math.max(0, tail - SEEN) : 0;

  const columns: Column[] = old.slice(0, head);
  for (let event = head; event < count; event++) {
    if ((event - head) % STRIDE === STRIDE - 1) yield;
    const column = columnAfter(columns[event - 1], tables.states(passage, event), tables);
    const twin = event >= count - tail ? old[old.length - (count - event)] : undefined;
    if (twin && sameCosts(column, twin)) {
      // From here on everything is as it was.
      columns.push(column.base === twin.base && column.torn === twin.torn ? twin : column);
      return { passage, columns: columns.concat(old.slice(old.length - (count - event) + 1)) };
    }
    columns.push(column);
  }
  return { passage, columns };
}

/** The same demand on the same beat. Numerators and denominators are compared as they are: `equals` of the library is slow, and every event is asked. */
function sameEvent(one: PassageEvent, other: PassageEvent): boolean {
  return one.spec === other.spec && one.beat.n === other.beat.n && one.beat.d === other.beat.d && one.beat.s === other.beat.s;
}

/** The key a passage is written in counts for every event. */
function sameKey({ key }: Passage, other: Passage | undefined): boolean {
  return other !== undefined && JSON.stringify(key) === JSON.stringify(other.key);
}

function columnAfter(previous: Column | undefined, states: StateSet, tables: Tables): Column {
  // What leads out of a gap, or out of the silence that a passage opens with, costs nothing: hand and bow are ready.
  const follows = previous !== undefined && previous.cost.length > 0 && previous.states.spec.notes.length > 0 && states.size > 0;
  if (follows) {
    const cost = new Int32Array(states.size);
    forward(previous.states, states, tables.link(previous.states, states), previous.cost, cost);
    const base = lower(cost);
    if (base < NEVER) return { states, fresh: false, cost, base, torn: false };
  }
  const cost = entry(states);
  const base = lower(cost);
  return { states, fresh: true, cost, base, torn: follows };
}

/** Takes the least cost off all and returns it; states that can't be reached stay so. */
function lower(cost: Int32Array): number {
  let least = NEVER;
  for (let i = 0; i < cost.length; i++) if (cost[i]! < least) least = cost[i]!;
  if (least === NEVER) return cost.length ? NEVER : 0;
  for (let i = 0; i < cost.length; i++) if (cost[i]! < NEVER) cost[i]! -= least;
  return least;
}

function sameCosts(a: Column, b: Column): boolean {
  return a.states === b.states && a.fresh === b.fresh && sameNumbers(a.cost, b.cost);
}

function sameNumbers(a: Int32Array, b: Int32Array): boolean {
  return a.length === b.length && a.every((one, i) => one === b[i]);
}

/** The state of the column before that a state is best reached from; -1 where nothing before counts. */
export function cameFrom(columns: readonly Column[], event: number, state: number, tables: Tables): number {
  const { states, cost, base, fresh } = columns[event]!;
  if (fresh) return -1;
  const before = columns[event - 1]!;
  return arrivedFrom(before.states, states, tables.link(before.states, states), before.cost, state, cost[state]! + base);
}

/** A lattice's columns and the state of each event on the best path. */
export interface Path {
  readonly columns: readonly Column[];
  readonly states: Int32Array;
}

/**
 * Index of the state of each event on the best path; -1 in a gap. Ties go to the lower state. Where the
 * columns are those of an earlier lattice, from the end on or back to the start, so is the path.
 */
export function bestPath(columns: readonly Column[], tables: Tables, earlier?: Path): Int32Array {
  const path = new Int32Array(columns.length).fill(-1);
  const old = earlier?.columns ?? [];
  const shift = old.length - columns.length;
  let event = columns.length - 1;
  let next = -1;
  for (; event >= 0 && columns[event] === old[event + shift]; event--) next = path[event] = earlier!.states[event + shift]!;
  if (next >= 0) next = cameFrom(columns, event + 1, next, tables);
  let head = 0;
  while (head < event && columns[head] === old[head]) head++;
  for (; event >= 0; event--) {
    const column = columns[event]!;
    const state = next >= 0 ? next : column.cost.indexOf(0);
    if (event < head && state === earlier!.states[event]) {
      path.set(earlier!.states.subarray(0, event + 1));
      break;
    }
    path[event] = state;
    next = state >= 0 ? cameFrom(columns, event, state, tables) : -1;
  }
  return path;
}

/** The backward pass over a lattice: for each event, the least cost from each of its states to the end of its run, less the least of them. */
export interface Remaining {
  readonly columns: readonly Column[];
  readonly costs: readonly Int32Array[];
}

/** Like `latticeSteps`, in steps, and computes only what differs from an earlier pass. */
export function* remainingSteps(columns: readonly Column[], tables: Tables, earlier?: Remaining): Generator<void, Remaining> {
  const old = earlier ?? { columns: [], costs: [] };
  const shift = old.columns.length - columns.length;
  const head = sameRun(columns, old.columns, 'front');
  const tail = sameRun(columns, old.columns, 'back');
  const costs: Int32Array[] = new Array(columns.length);
  for (let event = columns.length - 1; event >= 0; event--) {
    if (event >= columns.length - tail) {
      costs[event] = old.costs[event + shift]!;
      continue;
    }
    if (event % STRIDE === 0) yield;
    const cost = remainingFrom(columns[event]!, columns[event + 1], costs[event + 1], tables);
    costs[event] = cost;
    if (event < head - 1 && sameNumbers(cost, old.costs[event]!)) {
      for (let rest = event; rest >= 0; rest--) costs[rest] = old.costs[rest]!;
      break;
    }
  }
  return { columns, costs };
}

function remainingFrom(column: Column, next: Column | undefined, beyond: Int32Array | undefined, tables: Tables): Int32Array {
  const cost = new Int32Array(column.states.size);
  if (next && beyond && !next.fresh) {
    backward(column.states, next.states, tables.link(column.states, next.states), beyond, cost);
    lower(cost);
  }
  return cost;
}

/** How many columns two lattices share from the front, or from the back. */
function sameRun(columns: readonly Column[], old: readonly Column[], end: 'front' | 'back'): number {
  const most = Math.min(columns.length, old.length);
  const [last, oldLast] = [columns.length - 1, old.length - 1];
  let run = 0;
  if (end === 'front') while (run < most && sameColumn(columns[run]!, old[run]!)) run++;
  else while (run < most && sameColumn(columns[last - run]!, old[oldLast - run]!)) run++;
  return run;
}

function sameColumn(a: Column, b: Column): boolean {
  return a === b || (a.states === b.states && a.fresh === b.fresh);
}
