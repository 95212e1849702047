import { QUICKEST_NOTE } from '../hand/constants';
import type { Tempo } from '../passage/passage';
import { toNats } from './cost';
import { landings, stepAt } from './read';
import type { Solution } from './solution';

/** How many times slower than written a tempo is looked for. */
const SLOWEST = 8;

/**
 * The fastest tempo at which the passage, fingered as in the solution, comes out clean with at least the
 * given chance (0 to 1). Every tempo of the passage is scaled alike; the answer is in the beat of the
 * first, rounded down to whole beats a minute. Undefined where even an eighth of the written tempo is
 * too fast, or the passage can't be played; never so fast that a note is too short for the fingers.
 */
export function ceiling(solution: Solution, chance: number): Tempo | undefined {
  const first = solution.passage.events.find(({ spec }) => spec.notes.length > 0)?.tempo;
  if (!first || solution.deadlocks.length > 0) return undefined;
  const clean = cleanAt(solution);
  if (clean(1 / SLOWEST) < chance) return undefined;
  let good = Math.max(1, Math.floor(first.bpm / SLOWEST));
  let bad = Math.floor((first.bpm * shortest(solution)) / QUICKEST_NOTE) + 1;
  if (bad <= good) return undefined;
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (clean(middle / first.bpm) >= chance) good = middle;
    else bad = middle;
  }
  return { beat: first.beat, bpm: good };
}

/** Seconds of the shortest note, rest included. */
function shortest({ passage }: Solution): number {
  return passage.events.reduce(
    (least, { spec }) => (spec.notes.length ? Math.min(least, spec.seconds + spec.rest) : least),
    Number.MAX_VALUE,
  );
}

/** Chance that the whole passage comes out clean as fingered, at so many times the written tempo. Falls with the tempo. */
export function cleanAt(solution: Solution): (times: number) => number {
  const { lattice, path } = solution.work;
  const steps = lattice.columns.flatMap(({ states }, event) => {
    const step = stepAt(solution, event);
    return step ? [{ states, state: path[event]!, step }] : [];
  });
  return (times) => {
    let cost = 0;
    for (const { states, state, step } of steps) {
      for (const one of landings(states, state, { ...step, seconds: step.seconds / times })) cost += one;
    }
    return Math.exp(-toNats(cost));
  };
}

/** Chance that one event comes out clean as fingered, at so many times the written tempo; 0 where it can't be played. */
export function chanceAt(solution: Solution, event: number, times: number): number {
  const step = stepAt(solution, event);
  if (!step) return 0;
  const { states } = solution.work.lattice.columns[event]!;
  const landed = landings(states, solution.work.path[event]!, { ...step, seconds: step.seconds / times });
  return Math.exp(-toNats(landed.reduce((sum, cost) => sum + cost, 0)));
}
