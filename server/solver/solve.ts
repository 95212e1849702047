import { keptEnds } from '../passage/kept-ends';
import type { Passage } from '../passage/passage';
import { bestPath, latticeSteps } from './lattice';
import { solvedEvent } from './read';
import { keepRepeats } from './repeats';
import type { Solution, SolvedEvent } from './solution';
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
    const work = new Work(made, bestPath(made.columns, tables, before), tables, earlier?.work);
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

/** What each event adds to its passage, in a row: summed up anew after every key without a look at the events. */
interface Shares {
  /** Nats; 0 for an event that can't be played. */
  readonly costs: Float64Array;
  /** 1 for an event that can't be played. */
  readonly chances: Float64Array;
}

const sharesOf = new WeakMap<Solution, Shares>();

function* solutionOf(passage: Passage, work: Work, earlier?: Solution): Generator<void, Solution> {
  const { columns } = work.lattice;
  const { length } = columns;
  const kept = keptOf(work, earlier);
  const events = kept.events.slice(0, kept.from);
  const unplayables = kept.unplayables.filter(({ event }) => event < kept.from);
  const shares = { costs: new Float64Array(length), chances: new Float64Array(length).fill(1) };
  shares.costs.set(kept.shares.costs.subarray(0, kept.from));
  shares.chances.set(kept.shares.chances.subarray(0, kept.from));
  for (let event = kept.from; event < kept.until; event++) {
    const column = columns[event]!;
    if (event % STRIDE === STRIDE - 1) yield;
    const state = work.path[event]!;
    if (column.torn) unplayables.push({ event, reason: { kind: 'held' }, relaxations: [] });
    if (state < 0) {
      unplayables.push(unplayableOf(event, passage, column.states.around.fifths));
      events.push(undefined);
      continue;
    }
    const solved = kept.as(event) ?? solvedEvent(column, state, columns[event - 1], work.path[event - 1] ?? -1);
    events.push(solved);
    shares.costs[event] = solved.cost;
    shares.chances[event] = solved.chance;
  }
  const then = kept.until + kept.shift;
  for (const solved of kept.events.slice(then)) events.push(solved);
  for (const one of kept.unplayables) if (one.event >= then) unplayables.push({ ...one, event: one.event - kept.shift });
  shares.costs.set(kept.shares.costs.subarray(then), kept.until);
  shares.chances.set(kept.shares.chances.subarray(then), kept.until);
  const solution = { passage, events, unplayables, ...totals(shares, events, unplayables), work };
  sharesOf.set(solution, shares);
  if (earlier) keepRepeats(solution, earlier);
  return solution;
}

function totals(
  { costs, chances }: Shares,
  events: Solution['events'],
  unplayables: Solution['unplayables'],
): Pick<Solution, 'cost' | 'clean' | 'hardest'> {
  let [cost, clean, hardest, worst] = [0, 1, -1, -1];
  for (let event = 0; event < costs.length; event++) {
    const share = costs[event]!;
    cost += share;
    clean *= chances[event]!;
    if (share > worst && events[event]) {
      worst = share;
      hardest = event;
    }
  }
  return { cost, clean: unplayables.length ? 0 : clean, hardest };
}

/** What stays of an earlier solution: its events before `from`, and from `until` on, where they stood `shift` places later. */
interface Kept extends Pick<Solution, 'events' | 'unplayables'> {
  readonly from: number;
  readonly until: number;
  readonly shift: number;
  readonly shares: Shares;
  /** An event between the two as it was read before, where neither it nor the step onto it has changed. */
  as(event: number): SolvedEvent | undefined;
}

function keptOf(work: Work, earlier: Solution | undefined): Kept {
  const { columns } = work.lattice;
  const shares = earlier && sharesOf.get(earlier);
  if (!earlier || !shares) {
    const none = new Float64Array();
    const { length } = columns;
    return {
      events: [],
      unplayables: [],
      from: 0,
      until: length,
      shift: 0,
      shares: { costs: none, chances: none },
      as: () => undefined,
    };
  }
  const { path } = work;
  const { events, unplayables } = earlier;
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
  const alike = (event: number, twin: number) => twin >= 0 && same(event, twin) && same(event - 1, twin - 1);
  const as = (event: number) => {
    if (alike(event, event)) return events[event];
    return shift !== 0 && alike(event, event + shift) ? events[event + shift] : undefined;
  };
  // The first event of what stays at the end may be reached by another step than before.
  const until = Math.max(head, Math.min(columns.length, columns.length - tail + 1));
  return { events, unplayables, from: head, until, shift, shares, as };
}
