import { NAT } from '../../server/solver/cost';
import type { Column } from '../../server/solver/lattice';
import { solvedEvent } from '../../server/solver/read';
import type { Solution } from '../../server/solver/solution';

/**
 * The solver's states and what every step between them costs, laid out pair by pair from the terms that
 * players are shown: no pass, no table of the solver's own. What is searched in it is up to the oracle.
 */
export interface Steps {
  readonly sizes: readonly number[];
  /** Whole numbers; the first event has one row, from nowhere. Infinity where a step is forbidden. */
  cost(event: number, from: number, to: number): number;
  shape(event: number, state: number): number;
}

export function steps(solution: Solution): Steps {
  const { columns } = solution.work.lattice;
  const memo = new Map<string, number>();
  return {
    sizes: columns.map((column) => column.states.size),
    shape: (event, state) => columns[event]!.states.shape[state]!,
    cost(event, from, to) {
      const key = `${event} ${from} ${to}`;
      let cost = memo.get(key);
      if (cost === undefined) {
        cost = costOf(columns[event]!, to, columns[event - 1], from);
        memo.set(key, cost);
      }
      return cost;
    },
  };
}

function costOf(column: Column, to: number, previous: Column | undefined, from: number): number {
  const cost = Math.round(solvedEvent({ ...column, fresh: previous === undefined }, to, previous, from).cost * NAT);
  return cost >= 400 * NAT ? Number.POSITIVE_INFINITY : cost;
}

/** Every path through the states with its cost, cheapest first. Small passages only. */
export function allPaths({ sizes, cost }: Steps): { path: number[]; cost: number }[] {
  let paths: { path: number[]; cost: number }[] = [{ path: [], cost: 0 }];
  for (const [event, size] of sizes.entries()) {
    paths = paths.flatMap(({ path, cost: sofar }) =>
      Array.from({ length: size }, (_, to) => ({ path: [...path, to], cost: sofar + cost(event, path.at(-1) ?? -1, to) })),
    );
  }
  return paths.filter((one) => Number.isFinite(one.cost)).sort((a, b) => a.cost - b.cost);
}
