import { NEVER } from './cost';
import type { Column } from './lattice';
import { entry } from './link';
import { forward } from './pass';
import { solvedEvent } from './read';
import type { Solution, SolvedEvent } from './solution';
import type { Work } from './work';

/** One of the best fingerings of a whole passage. */
export interface Ranked {
  readonly events: readonly (SolvedEvent | undefined)[];
  readonly cost: number;
}

/**
 * The `k` best fingerings of a passage, cheapest first, no two of which look alike on the page (the same
 * fingering from another hand place is not another fingering); fewer where there are fewer. Exact: each
 * answer splits what is left into the fingerings that part from it at each event, and the best of each
 * part is known from the two passes (Lawler, Management Science 18, 1972). An answer costs about two
 * forward passes.
 */
export function kBest(solution: Solution, k: number): readonly Ranked[] {
  const { work } = solution;
  const { columns } = work.lattice;
  if (columns.length === 0) return [];
  const found: Ranked[] = [];
  const open: Branch[] = [{ shapes: new Int32Array(0), at: 0, banned: [], state: work.path[0]!, extra: 0 }];
  while (found.length < k && open.length > 0) {
    const branch = takeLeast(open);
    const path = completed(branch, work);
    found.push(ranked(columns, path));
    if (found.length < k) open.push(...branches(path, branch, work));
  }
  return found;
}

/** All fingerings with the first `at` of `shapes`, then a shape that is not banned, then anything. */
interface Branch {
  readonly shapes: Int32Array;
  readonly at: number;
  readonly banned: readonly number[];
  /** Where the best of them stands at event `at`, and what it costs beyond the best of all, in the solver's whole numbers. */
  readonly state: number;
  readonly extra: number;
}

function takeLeast(open: Branch[]): Branch {
  let least = 0;
  for (let i = 1; i < open.length; i++) if (open[i]!.extra < open[least]!.extra) least = i;
  return open.splice(least, 1)[0]!;
}

/** Costs of reaching each state of an event by given shapes, less `base`, and from where. */
interface Reached {
  readonly cost: Int32Array;
  readonly came: Uint16Array;
  readonly base: number;
}

function reach(event: number, before: Reached | undefined, work: Work): Reached {
  const column = work.lattice.columns[event]!;
  const { states } = column;
  const came = new Uint16Array(states.size);
  const base = before?.base ?? 0;
  if (!before || column.fresh) return { cost: entry(states), came, base };
  const cost = new Int32Array(states.size);
  const previous = work.lattice.columns[event - 1]!.states;
  forward(previous, states, work.tables.link(previous, states), before.cost, cost, came);
  return { cost, came, base };
}

/** The same, through one shape only. */
function through(reached: Reached, column: Column, shape: number): Reached {
  const cost = reached.cost.map((one, state) => (column.states.shape[state] === shape ? one : NEVER));
  const least = cost.reduce((a, b) => Math.min(a, b), NEVER);
  if (least === NEVER) return reached.cost.length ? { ...reached, cost } : reached;
  return { ...reached, cost: cost.map((one) => (one < NEVER ? one - least : NEVER)), base: reached.base + least };
}

function branches(path: Int32Array, from: Branch, work: Work): Branch[] {
  const { columns } = work.lattice;
  const shapes = path.map((state, event) => (state < 0 ? -1 : columns[event]!.states.shape[state]!));
  const made: Branch[] = [];
  let reached: Reached | undefined;
  let reachedBest = 0;
  for (const [event, column] of columns.entries()) {
    reachedBest += column.base;
    reached = reach(event, reached, work);
    if (event >= from.at && column.states.size > 0) {
      const banned = event === from.at ? [...from.banned, shapes[event]!] : [shapes[event]!];
      const after = work.remaining.costs[event]!;
      const state = least(reached.cost, after, (i) => !banned.includes(column.states.shape[i]!));
      if (state >= 0) {
        const best = least(column.cost, after, () => true);
        const extra = reached.base + reached.cost[state]! + after[state]! - (reachedBest + column.cost[best]! + after[best]!);
        made.push({ shapes, at: event, banned, state, extra });
      }
    }
    reached = through(reached, column, shapes[event]!);
  }
  return made;
}

/** Index of the least sum that is possible and wanted; -1 where there is none. */
function least(cost: Int32Array, after: Int32Array, wanted: (state: number) => boolean): number {
  let best = NEVER;
  let at = -1;
  for (let i = 0; i < cost.length; i++) {
    const sum = cost[i]! + after[i]!;
    if (sum < best && wanted(i)) {
      best = sum;
      at = i;
    }
  }
  return at;
}

/** The states of the best fingering of a branch: back from its event through the given shapes, on from it freely. */
function completed(branch: Branch, work: Work): Int32Array {
  const { columns } = work.lattice;
  const path = new Int32Array(columns.length).fill(-1);
  const came: Uint16Array[] = [];
  let reached: Reached | undefined;
  for (let event = 0; event <= branch.at; event++) {
    if (event > 0) reached = through(reached!, columns[event - 1]!, branch.shapes[event - 1]!);
    const before = reached;
    reached = reach(event, before, work);
    came.push(reached.came);
    // A run that ends here ends in its cheapest state.
    if (columns[event]!.fresh && before) path[event - 1] = before.cost.indexOf(0);
  }
  path[branch.at] = branch.state;
  for (let event = branch.at; event > 0; event--) {
    if (!columns[event]!.fresh) path[event - 1] = came[event]![path[event]!]!;
    else if (columns[event - 1]!.states.size === 0) path[event - 1] = -1;
  }
  for (let event = branch.at + 1; event < columns.length; event++) {
    const column = columns[event]!;
    if (column.states.size === 0) continue;
    const previous = columns[event - 1]!.states;
    const before = { cost: new Int32Array(previous.size).fill(NEVER), came: new Uint16Array(0), base: 0 };
    if (path[event - 1]! >= 0) before.cost[path[event - 1]!] = 0;
    path[event] = least(reach(event, before, work).cost, work.remaining.costs[event]!, () => true);
  }
  return path;
}

function ranked(columns: readonly Column[], path: Int32Array): Ranked {
  const events = columns.map((column, event) => {
    const state = path[event]!;
    return state < 0 ? undefined : solvedEvent(column, state, columns[event - 1], path[event - 1] ?? -1);
  });
  return { events, cost: events.reduce((sum, event) => sum + (event?.cost ?? 0), 0) };
}
