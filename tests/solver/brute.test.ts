import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alternatives } from '../../server/solver/alternatives';
import { kBest } from '../../server/solver/best';
import { NAT } from '../../server/solver/cost';
import { createSolver } from '../../server/solver/solve';
import { event, note, passage, setup } from './build';
import { allPaths, steps } from './oracle';

const TEXTS = ['A4', 'D6o', 'E5', 'C5', 'A5o', 'B5', 'G4', 'E5<>A5', 'F#6o'];

/** Short events with few enough states that every path can be listed. */
const small = fc
  .array(
    fc.record({
      text: fc.constantFrom(...TEXTS),
      second: fc.option(fc.constantFrom('E5', 'A4', 'D5', 'B4'), { freq: 5 }),
      string: fc.constantFrom(1, 2, 3, 4),
      seconds: fc.constantFrom(0.08, 0.3, 1.2),
      rest: fc.constantFrom(0, 0, 0.5),
      slurred: fc.boolean(),
      dynamic: fc.constantFrom('p' as const, 'ff' as const),
      slide: fc.constantFrom(false, false, false, true),
    }),
    { minLength: 2, maxLength: 3 },
  )
  .map((rows) => {
    const specs = rows.map(({ text, second, string, ...rest }) => {
      const notes =
        second && !text.includes('o') && !text.includes('<') ? [note(text), note(second)] : [note(text, { string: string as 1 })];
      return event(notes, rest);
    });
    return passage(specs, setup());
  });

describe('the solver against every path listed', () => {
  it('finds the least cost, the cost through every alternative, and the k best', () => {
    let compared = 0;
    fc.assert(
      fc.property(small, (made) => {
        const solution = createSolver().solve(made);
        if (solution.unplayables.length > 0) return;
        const oracle = steps(solution);
        if (oracle.sizes.reduce((a, b) => a * b, 1) > 60_000) return;
        const paths = allPaths(oracle);
        const least = paths[0]!.cost;
        expect(Math.round(solution.cost * NAT)).toBe(least);
        for (let at = 0; at < made.events.length; at++) {
          const best = new Map<number, number>();
          for (const { path, cost } of paths) {
            const shape = oracle.shape(at, path[at]!);
            if (!best.has(shape)) best.set(shape, cost);
          }
          best.delete(oracle.shape(at, solution.work.path[at]!));
          const extra = alternatives(solution, at).map((one) => Math.round(one.extraCost * NAT));
          expect(extra).toEqual([...best.values()].map((cost) => cost - least).sort((a, b) => a - b));
        }
        const distinct = new Map<string, number>();
        for (const { path, cost } of paths) {
          const key = path.map((state, at) => oracle.shape(at, state)).join(' ');
          if (!distinct.has(key)) distinct.set(key, cost);
        }
        expect(kBest(solution, 12).map((one) => Math.round(one.cost * NAT))).toEqual([...distinct.values()].slice(0, 12));
        compared++;
      }),
      { numRuns: 30, seed: 20261125 },
    );
    expect(compared).toBeGreaterThan(15);
  });
});
