import { describe, expect, it } from 'vitest';
import type { Tree } from '../../grammar/tree';
import { createChecker } from '../../server/rules/check';
import type { Solution } from '../../server/solver/solution';
import { createSolver } from '../../server/solver/solve';
import { leastWork } from '../support/least-work';
import { reading } from '../support/reading';

function checked(tree: Tree, solution: Solution, earlier?: Solution) {
  const steps = createChecker(tree, {}).played(solution, earlier);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

// The rules run after every edit, over every note; ratios within one run hold on any machine.
describe('what the rules cost', () => {
  it('a passage with nothing wrong: a small part of fingering it', () => {
    const { tree, solutions } = reading('1/8 slur(G3 A3 B3 C4) D6o E6o F#6o G6o B4 D5 G5 F#5 E5 D5 C5 B4 |\n'.repeat(100));
    const solution = solutions[0]!;
    const rules = leastWork(5, () => checked(tree, solution));
    const solving = leastWork(2, () => createSolver().solve(solution.passage));
    expect(rules).toBeLessThan(solving / 10);
  });

  it('after an edit: what it reaches, and what was told before', () => {
    const { tree, solutions } = reading('1/8 slur(G3 A3 B3 C4) D6o E6o F#6o G6o B4 D5 G5 F#5 E5 D5 C5 B4 |\n'.repeat(100));
    const solution = solutions[0]!;
    checked(tree, solution);
    const all = leastWork(5, () => checked(tree, solution));
    const again = leastWork(5, () => checked(tree, solution, solution));
    expect(again).toBeLessThan(all / 4);
  });

  it('fixes are not looked for until somebody asks', () => {
    const { tree, solutions } = reading('1/16 F6o [IV natural]+A5o [III natural] C5<>F5 [II] C6<>F6 [II] |\n'.repeat(60));
    const told = () => checked(tree, solutions[0]!);
    const telling = leastWork(15, told);
    const fixing = leastWork(15, () => told().map(({ fixes }) => fixes.length));
    expect(told().length).toBeGreaterThan(100);
    // Looked for at once, the two would take the same time; quiet or busy, asking takes 2 to 3 times as long.
    expect(telling).toBeLessThan(fixing / 1.4);
  });
});
