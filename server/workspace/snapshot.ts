import { parse } from '../../grammar/parse';
import type { Reading, SolvedReading } from '../features/reading';
import type { Passage } from '../passage/passage';
import { resolve } from '../passage/resolve';
import type { Overrides } from '../passage/setup';
import type { Settings } from '../protocol/settings';
import { type Checker, createChecker } from '../rules/check';
import type { Problem } from '../rules/rule';
import type { Solution } from '../solver/solution';
import { createSolver, type Solver } from '../solver/solve';
import { readingProblems } from './reading-problems';
import { defaultsFrom } from './settings';

/** A text as read at once, on every edit: tree, passages, and the problems that need no fingering. */
export interface Draft extends Reading {
  /** The version of the document it came from; a result of an older one is stale. */
  readonly version: number;
  readonly settings: Settings;
}

/** A draft with all passages fingered and all problems found. */
export interface Snapshot extends Draft, SolvedReading {
  /** Kept for what it remembers; the next version is solved with it. */
  readonly solver: Solver;
}

/** Everything there is to know about one version of a text. With `previous`, only what the edit reaches is worked out again. */
export function snapshot(
  text: string,
  version: number,
  settings: Settings,
  previous?: Snapshot,
  overrides: Overrides = {},
): Snapshot {
  return solved(draft(text, version, settings, previous, overrides), previous);
}

/** A draft with all its passages fingered; a solver that knows other texts' notes need not lay them out again. */
export function solved(begun: Draft, previous?: Snapshot, solver?: Solver): Snapshot {
  const steps = solveSteps(begun, previous, solver);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The part of a snapshot that is there at once. `overrides` hold against the file, the settings only where it is silent. */
export function draft(text: string, version: number, settings: Settings, previous?: Draft, overrides: Overrides = {}): Draft {
  const tree = parse(text, previous?.tree);
  const resolved = resolve(tree, previous?.resolved, { ...overrides, defaults: defaultsFrom(settings) });
  const checker = createChecker(tree, settings.rules);
  const problems = checker.read(readingProblems(tree, resolved));
  return { version, settings, tree, resolved, problems: inOrder(problems) };
}

/** Fingers the passages of a draft in short steps; the caller decides between two of them whether to go on. */
export function* solveSteps(
  begun: Draft,
  previous?: Snapshot,
  solver: Solver = previous?.solver ?? createSolver(),
): Generator<void, Snapshot> {
  const checker: Checker = createChecker(begun.tree, begun.settings.rules);
  const solutions: Solution[] = [];
  const problems: Problem[] = [...begun.problems];
  const earlier = previous ? pairing(previous, begun) : () => undefined;
  for (const [index, passage] of begun.resolved.passages.entries()) {
    const before = earlier(index);
    const solution = before?.passage === passage ? before : yield* solver.steps(passage, before);
    solutions.push(solution);
    problems.push(...(yield* checker.played(solution, before)));
    yield;
  }
  return { ...begun, solver, solutions, problems: inOrder(problems) };
}

/** Which earlier solution a passage may build on: its own, or the one of the same title and setup, or the one at the same place. */
function pairing(previous: Snapshot, begun: Draft): (index: number) => Solution | undefined {
  const old = previous.solutions;
  const now = begun.resolved.passages;
  const byPassage = new Map(old.map((solution) => [solution.passage, solution]));
  const byName = new Map(old.map((solution) => [nameOf(solution.passage), solution]));
  const fromEnd = old.length - now.length;
  return (index) => {
    const passage = now[index];
    if (!passage) return undefined;
    return byPassage.get(passage) ?? byName.get(nameOf(passage)) ?? old[index] ?? old[index + fromEnd];
  };
}

function nameOf(passage: Passage): string {
  return `${passage.setup.key}\n${passage.title}`;
}

/** By place; a stable order at one place, so the list of problems never jumps. */
function inOrder(problems: readonly Problem[]): readonly Problem[] {
  return [...problems].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
}
