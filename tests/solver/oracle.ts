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
  if (previous && previous.states.place[from] !== column.states.place[to]) {
    // Where nothing is down after a fingered note, the hand waits; it moves during the open note itself.
    const fingers = ({ facts, shape }: Column['states'], state: number) => facts.fingers[shape[state]!]!;
    if (fingers(column.states, to) === 0 && fingers(previous.states, from) > 0) return Number.POSITIVE_INFINITY;
  }
  const cost = Math.round(solvedEvent({ ...column, fresh: previous === undefined }, to, previous, from).cost * NAT);
  return cost >= 400 * NAT ? Number.POSITIVE_INFINITY : cost;
}

/** Every edge of the lattice, from a start before the first event to an end after the last. */
export function* edges({ sizes, cost }: Steps): Generator<readonly [string, string, number]> {
  for (const [event, size] of sizes.entries()) {
    for (let to = 0; to < size; to++) {
      for (let from = event === 0 ? -1 : 0; from < (event === 0 ? 0 : sizes[event - 1]!); from++) {
        const weight = cost(event, from, to);
        if (Number.isFinite(weight)) yield [event === 0 ? 'start' : `${event - 1}/${from}`, `${event}/${to}`, weight];
      }
    }
  }
  const last = sizes.length - 1;
  for (let from = 0; from < sizes[last]!; from++) yield [`${last}/${from}`, 'end', 0];
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
