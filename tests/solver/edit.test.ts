import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EventSpec } from '../../server/passage/passage';
import { alternatives } from '../../server/solver/alternatives';
import type { Solution } from '../../server/solver/solution';
import { createSolver } from '../../server/solver/solve';
import { event, note, passage, setup } from './build';

/** Demands as the passage room gives them: equal ones are one object. C9 and the pinned G3 can't be played. */
const MENU: readonly EventSpec[] = [
  ...['A4', 'D5', 'E5', 'B5', 'G3', 'C9', 'F#4'].map((text) => event([note(text)])),
  ...['D6o', 'A6o', 'F#6o'].map((text) => event([note(text)], { seconds: 0.2, slurred: true })),
  event([note('A4'), note('E5')], { rest: 0.4 }),
  event([note('G3', { finger: 3 })]),
  event([note('D5')], { held: [[0, 0]] }),
  event([note('D6o')], { slide: true, dynamic: 'ff' }),
];

const edit = fc.record({ at: fc.nat(), drop: fc.nat({ max: 3 }), put: fc.array(fc.constantFrom(...MENU), { maxLength: 3 }) });

/** All that anyone can ask of a solution, without the solver's own tables. */
function answers(solution: Solution) {
  const { events, unplayables, cost, clean, hardest, work } = solution;
  return {
    events,
    unplayables,
    cost,
    clean,
    hardest,
    path: [...work.path],
    others: events.map((_, i) => alternatives(solution, i)),
  };
}

describe('solving again after an edit', () => {
  it('gives what solving from scratch gives, whatever the edits', () => {
    const made = setup();
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...MENU), { maxLength: 14 }),
        fc.array(edit, { minLength: 1, maxLength: 5 }),
        (start, edits) => {
          const solver = createSolver();
          const specs = [...start];
          let solution = solver.solve(passage(specs, made));
          for (const [i, { at, drop, put }] of edits.entries()) {
            specs.splice(at % (specs.length + 1), drop, ...put);
            solution = solver.solve(passage(specs, made), solution);
            // Sometimes the backward pass is asked for in between, sometimes it must be caught up with.
            if (i % 2 === 0) expect(answers(solution)).toEqual(answers(createSolver().solve(passage(specs, made))));
          }
          expect(answers(solution)).toEqual(answers(createSolver().solve(passage(specs, made))));
        },
      ),
      { numRuns: 30, seed: 7 },
    );
  });

  it('computes only the columns that the edit reaches', () => {
    const made = setup();
    const specs = Array.from({ length: 400 }, (_, i) => MENU[(i * 3) % 5]!);
    const solver = createSolver();
    const before = solver.solve(passage(specs, made));
    const after = solver.solve(passage(specs.with(200, MENU[7]!), made), before);
    const fresh = after.work.lattice.columns.filter((column, i) => column !== before.work.lattice.columns[i]);
    expect(fresh.length).toBeGreaterThan(0);
    expect(fresh.length).toBeLessThan(80);
    expect(after.events.filter((one, i) => one !== before.events[i]).length).toBeLessThan(80);
  });

  it('starts again when the setup is another', () => {
    const solver = createSolver();
    const specs = MENU.slice(0, 5);
    const before = solver.solve(passage(specs, setup()));
    const small = setup({ hand: 'small' });
    expect(answers(solver.solve(passage(specs, small), before))).toEqual(answers(createSolver().solve(passage(specs, small))));
  });
});
