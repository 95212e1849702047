import { describe, expect, it } from 'vitest';
import { createChecker } from '../../server/rules/check';
import { createSolver } from '../../server/solver/solve';
import { reading } from '../support/reading';

/** Least time of a few runs, ms. */
function least(work: () => unknown, runs = 5): number {
  return Math.min(
    ...Array.from({ length: runs }, () => {
      const start = performance.now();
      work();
      return performance.now() - start;
    }),
  );
}

// The rules run after every edit, over every note; ratios within one run hold on any machine.
describe('what the rules cost', () => {
  it('a passage with nothing wrong: a small part of fingering it', () => {
    const { tree, solutions } = reading('1/8 slur(G3 A3 B3 C4) D6o E6o F#6o G6o B4 D5 G5 F#5 E5 D5 C5 B4 |\n'.repeat(100));
    const solution = solutions[0]!;
    const rules = least(() => createChecker(tree, {}).played(solution));
    const solving = least(() => createSolver().solve(solution.passage), 2);
    expect(rules).toBeLessThan(solving / 10);
  });

  it('cures are not looked for until somebody asks', () => {
    const { tree, solutions } = reading('1/16 F6o [IV natural]+A5o [III natural] C5<>F5 [II] C6<>F6 [II] |\n'.repeat(60));
    const told = () => createChecker(tree, {}).played(solutions[0]!);
    const telling = least(told);
    const curing = least(() => told().map(({ fixes }) => fixes.length));
    expect(told().length).toBeGreaterThan(100);
    expect(telling).toBeLessThan(curing / 2);
  });
});
