import { describe, expect, it } from 'vitest';
import { NEVER } from '../../server/solver/cost';
import { bestPath, type Column, lattice } from '../../server/solver/lattice';
import { partedStep } from '../../server/solver/link';
import { arrivedFrom, backward, forward } from '../../server/solver/pass';
import { createSolver } from '../../server/solver/solve';
import { createTables, type Tables } from '../../server/solver/tables';
import { mixedNotes, random } from '../bench/mixed';
import { line, passage, setup } from './build';
import { steps } from './oracle';

/** Double stops in harmonics have hundreds of states each, too many for a table of their pairs; single notes between them have few. */
const MANY = line('E7o+G7o G6o+D7o A4 C7o+E7o B6o+D7o G5 D7o+F#7o');
const LINKED = line('D5 F#5 A5 D6o').map((spec, i) => (i === 1 ? { ...spec, slide: true, key: `${spec.key} slide` } : spec));

/** Every step of a link, by what players are told of its terms. */
function matrixOf({ cost, sizes }: ReturnType<typeof steps>, event: number): number[][] {
  return Array.from({ length: sizes[event - 1]! }, (_, i) =>
    Array.from({ length: sizes[event]! }, (_, j) => Math.min(NEVER, cost(event, i, j))),
  );
}

/** Costs of the states before, some of which can't be reached. */
function some(size: number, seed: number): Int32Array {
  const next = random(seed);
  return Int32Array.from({ length: size }, () => (next() < 0.1 ? NEVER : Math.floor(next() * 8e6)));
}

function between(columns: readonly Column[], tables: Tables, event: number) {
  const [from, to] = [columns[event - 1]!.states, columns[event]!.states];
  return { from, to, link: tables.link(from, to) };
}

describe('a pass through one step, by all pairs and by parts, against the plain recurrence over what players are told', () => {
  const solved = (specs: ReturnType<typeof line>) => createSolver().solve(passage(specs, setup()));

  for (const [what, specs] of [
    ['few states', mixedNotes(10, 3).filter(({ notes }) => notes.length === 1)],
    ['a slide', LINKED],
    ['many states', MANY.slice(0, 3)],
  ] as const) {
    it(what, () => {
      const solution = solved([...specs]);
      const { columns } = solution.work.lattice;
      const told = steps(solution);
      for (let event = 1; event < columns.length; event++) {
        const { from, to, link } = between(columns, solution.work.tables, event);
        expect(link.kind).toBe(what === 'many states' && event === 1 ? 'parted' : 'pairs');
        const matrix = matrixOf(told, event);
        const before = some(from.size, event);
        const after = new Int32Array(to.size);
        forward(from, to, link, before, after);
        for (let j = 0; j < to.size; j++) {
          const costs = matrix.map((row, i) => Math.min(NEVER, before[i]! + row[j]!));
          const least = Math.min(...costs);
          expect(after[j]).toBe(least);
          // Ties go to the state that was cheapest so far, then to the lower.
          const best = [...costs.keys()].filter((i) => costs[i] === least).sort((a, b) => before[a]! - before[b]! || a - b);
          if (least < NEVER) expect(arrivedFrom(from, to, link, before, j, least)).toBe(best[0]);
        }
        const beyond = some(to.size, event + 50);
        const left = new Int32Array(from.size);
        backward(from, to, link, beyond, left);
        expect([...left]).toEqual(matrix.map((row) => Math.min(NEVER, ...row.map((cost, j) => cost + beyond[j]!))));
      }
    });
  }

  it('meets both kinds of step in one passage', () => {
    const made = passage(MANY, setup());
    const tables = createTables();
    const { columns } = lattice(made, tables);
    const kinds = columns.slice(1).map((_, i) => between(columns, tables, i + 1).link.kind);
    expect(new Set(kinds)).toEqual(new Set(['pairs', 'parted']));
    const path = bestPath(columns, tables);
    for (let event = 1; event < columns.length; event++) {
      const { from, to, link } = between(columns, tables, event);
      const [i, j] = [path[event - 1]!, path[event]!];
      const group = from.groupStart.findLastIndex((start) => start <= i);
      const step = link.kind === 'pairs' ? link.table[i * to.size + j]! : partedStep(link, from, to, group, i, j);
      expect(columns[event - 1]!.cost[i]! + step).toBe(columns[event]!.cost[j]! + columns[event]!.base);
    }
  });
});
