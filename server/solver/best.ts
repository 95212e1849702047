import type { Column } from './lattice';
import { solvedEvent } from './read';
import { ShapePaths } from './shape-paths';
import type { Solution, SolvedEvent } from './solution';

/** One of the best fingerings of a whole passage. */
export interface Ranked {
  readonly events: readonly (SolvedEvent | undefined)[];
  readonly cost: number;
}

/**
 * The `k` best fingerings of a passage, cheapest first, no two of which look alike on the page (the same
 * fingering from another hand place is not another fingering); fewer where there are fewer. Exact; see shape-paths.ts.
 */
export function kBest(solution: Solution, k: number): readonly Ranked[] {
  const { columns } = solution.work.lattice;
  if (columns.length === 0) return [];
  const paths = new ShapePaths(solution.work);
  const read = reader(solution);
  const found: Ranked[] = [];
  while (found.length < k) {
    const path = paths.path(found.length);
    if (!path) break;
    const events = columns.map((_, event) => read(event, path));
    found.push({ events, cost: events.reduce((sum, event) => sum + (event?.cost ?? 0), 0) });
  }
  return found;
}

/** Reads the event of a path; where another path has the same step, what was read of it. */
function reader({ events, work }: Solution): (event: number, path: Int32Array) => SolvedEvent | undefined {
  const { columns } = work.lattice;
  const known: Map<number, SolvedEvent>[] = columns.map(() => new Map());
  const stepAt = (event: number, path: Int32Array) => (path[event - 1] ?? -1) * STATES + path[event]!;
  for (const [event, solved] of events.entries()) if (solved) known[event]!.set(stepAt(event, work.path), solved);
  return (event, path) => {
    const state = path[event]!;
    if (state < 0) return undefined;
    const step = stepAt(event, path);
    let solved = known[event]!.get(step);
    if (!solved) {
      solved = solvedEvent(columns[event] as Column, state, columns[event - 1], path[event - 1] ?? -1);
      known[event]!.set(step, solved);
    }
    return solved;
  };
}

/** More than an event can have. */
const STATES = 1 << 16;
