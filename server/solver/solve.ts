import { keptEnds } from '../passage/kept-ends';
import type { Passage } from '../passage/passage';
import { bestPath, latticeSteps } from './lattice';
import { solvedEvent } from './read';
import type { Solution, SolvedEvent, Unplayable } from './solution';
import { createTables } from './tables';
import { unplayableOf } from './unplayable';
import { Work } from './work';

export interface Solver {
  /**
   * The least-cost fingering of a passage, exact (see lattice.ts). With an earlier solution of nearly the
   * same passage only what the change can reach is computed; the answer is the same as without.
   */
  solve(passage: Passage, earlier?: Solution): Solution;
  /** The same in steps of a few milliseconds: whoever runs it decides between two of them whether to go on. */
  steps(passage: Passage, earlier?: Solution): Generator<void, Solution>;
}

/** A solver with its own caches. It has no other state: solving the same passage twice gives the same answer. */
export function createSolver(): Solver {
  const tables = createTables();

  function* steps(passage: Passage, earlier?: Solution): Generator<void, Solution> {
    const made = yield* latticeSteps(passage, tables, earlier?.work.lattice);
    const before = earlier && { columns: earlier.work.lattice.columns, states: earlier.work.path };
    const work = new Work(made, bestPath(made.columns, before), tables, earlier?.work);
    work.settle();
    return yield* solutionOf(passage, work, earlier);
  }

  return {
    steps,
    solve(passage, earlier) {
      const run = steps(passage, earlier);
      for (;;) {
        const step = run.next();
        if (step.done) return step.value;
      }
    },
  };
}

/** Events read between two yields. */
const STRIDE = 1000;

function* solutionOf(passage: Passage, work: Work, earlier?: Solution): Generator<void, Solution> {
  const { columns } = work.lattice;
  const old = earlier ? reusable(work, earlier) : () => undefined;
  const events: (SolvedEvent | undefined)[] = new Array(columns.length);
  const unplayables: Unplayable[] = [];
  let cost = 0;
  let clean = 1;
  let hardest = -1;
  let worst = -1;
  for (let event = 0; event < columns.length; event++) {
    const column = columns[event]!;
    if (event % STRIDE === STRIDE - 1) yield;
    const state = work.path[event]!;
    if (column.torn) unplayables.push({ event, reason: { kind: 'held' }, relaxations: [] });
    if (state < 0) {
      unplayables.push(unplayableOf(event, passage, column.states.around.fifths));
      continue;
    }
    const solved = old(event) ?? solvedEvent(column, state, columns[event - 1], work.path[event - 1] ?? -1);
    events[event] = solved;
    cost += solved.cost;
    clean *= solved.chance;
    if (solved.cost > worst) {
      worst = solved.cost;
      hardest = event;
    }
  }
  return { passage, events, unplayables, cost, clean: unplayables.length ? 0 : clean, hardest, work };
}

/** The event as it was read before, where neither it nor the step onto it has changed. */
function reusable(work: Work, earlier: Solution): (event: number) => SolvedEvent | undefined {
  const { columns } = work.lattice;
  const { path } = work;
  const old = earlier.work.lattice.columns;
  const oldPath = earlier.work.path;
  const shift = old.length - columns.length;
  // Most of a long passage is the very same before and after what was edited, which is seen at a glance.
  const unmoved = (event: number, twin: number) => columns[event] === old[twin] && path[event] === oldPath[twin];
  const { head, tail } = keptEnds(columns.length, old.length, unmoved);
  const same = (event: number, twin: number) =>
    unmoved(event, twin) ||
    (columns[event]?.states === old[twin]?.states &&
      (path[event] ?? -1) === (oldPath[twin] ?? -1) &&
      columns[event]?.fresh === old[twin]?.fresh);
  const as = (event: number, twin: number) => twin >= 0 && same(event, twin) && same(event - 1, twin - 1);
  return (event) => {
    if (event < head) return earlier.events[event];
    if (event > columns.length - tail) return earlier.events[event + shift];
    if (as(event, event)) return earlier.events[event];
    return shift !== 0 && as(event, event + shift) ? earlier.events[event + shift] : undefined;
  };
}
