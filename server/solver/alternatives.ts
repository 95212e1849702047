import { NEVER, toNats } from './cost';
import { cameFrom } from './lattice';
import { fingeringOf } from './read';
import type { Alternative, Solution } from './solution';

/**
 * Every other fingering of one event, cheapest first: for each shape the least cost of the whole
 * passage with the event so fingered and everything else free, beyond the best there is. Exact, by the
 * forward and the backward pass. Empty for an event that can't be played. `within`: only those that cost no more beyond the
 * best, nats; `most`: only so many.
 */
export function alternatives(
  solution: Solution,
  event: number,
  within = Number.POSITIVE_INFINITY,
  most = Number.POSITIVE_INFINITY,
): readonly Alternative[] {
  const { work } = solution;
  const column = work.lattice.columns[event];
  const chosen = work.path[event] ?? -1;
  if (!column || chosen < 0) return [];
  const { states, cost } = column;
  const after = work.remaining.costs[event]!;
  const through = new Int32Array(states.shapes.length).fill(NEVER);
  const by = new Int32Array(states.shapes.length).fill(-1);
  let best = NEVER;
  for (let state = 0; state < states.size; state++) {
    const total = Math.min(NEVER, cost[state]! + after[state]!);
    const shape = states.shape[state]!;
    if (total < through[shape]!) {
      through[shape] = total;
      by[shape] = state;
    }
    if (total < best) best = total;
  }
  const shapes: number[] = [];
  for (let shape = 0; shape < through.length; shape++) {
    const total = through[shape]!;
    if (shape !== states.shape[chosen] && total < NEVER && toNats(total - best) <= within) shapes.push(shape);
  }
  return shapes
    .sort((a, b) => through[a]! - through[b]! || a - b)
    .slice(0, most)
    .map((shape) => ({
      fingering: fingeringOf(states, by[shape]!),
      extraCost: toNats(through[shape]! - best),
      // Looked for when asked: few do.
      get from() {
        return comesFrom(solution, event, by[shape]!);
      },
    }));
}

function comesFrom({ work }: Solution, event: number, state: number): number | undefined {
  const { columns } = work.lattice;
  const came = cameFrom(columns, event, state, work.tables);
  if (came < 0) return undefined;
  const { places, place } = columns[event - 1]!.states;
  return places[place[came]!]!;
}
