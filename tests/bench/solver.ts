import Graph from 'graphology';
import { dijkstra } from 'graphology-shortest-path';
import { bestPath, lattice } from '../../server/solver/lattice';
import type { Link } from '../../server/solver/link';
import { forward } from '../../server/solver/pass';
import { createSolver } from '../../server/solver/solve';
import { createTables } from '../../server/solver/tables';
import { passage, setup } from '../solver/build';
import { edges, steps } from '../solver/oracle';
import { leastWork } from '../support/least-work';
import { type Figure, ms } from './figure';
import { mixedNotes } from './mixed';

const NOTES = 10_000;

/** The exact path against a graph library on the same states, and against the barest loop there can be over all pairs of states. */
export function solverBench(): readonly Figure[] {
  return [againstGraph(), ...againstLoop(), edit()];
}

function againstGraph(): Figure {
  const made = passage(mixedNotes(40), setup());
  const solution = createSolver().solve(made);
  const { tables } = solution.work;
  const graph = new Graph({ type: 'directed' });
  for (const [from, to, weight] of edges(steps(solution))) {
    graph.mergeNode(from);
    graph.mergeNode(to);
    graph.addEdge(from, to, { weight });
  }
  const library = leastWork(3, () => dijkstra.bidirectional(graph, 'start', 'end', 'weight'));
  const rounds = 20;
  const ours =
    leastWork(5, () => {
      for (let round = 0; round < rounds; round++) bestPath(lattice(made, tables).columns);
    }) / rounds;
  return {
    what: 'exact path of 40 mixed notes, against Dijkstra of graphology on the same states (its graph ready made)',
    ratio: library / ours,
    goal: { least: 10 },
    measured: `${ms(ours)} against ${ms(library)}, ${graph.size} steps`,
  };
}

/** The search alone, its steps priced beforehand as the loop's are; and all of a path, prices too. */
function againstLoop(): readonly Figure[] {
  const made = passage(mixedNotes(2_000), setup());
  const tables = createTables();
  const { columns } = lattice(made, tables);
  const sizes = columns.map(({ states }) => states.size);
  const matrices = sizes
    .slice(1)
    .map((to, i) => Int32Array.from({ length: to * sizes[i]! }, (_, cell) => (cell * 7919) % 100_003));
  const links = columns.slice(1).map(({ states }, i) => copied(tables.link(columns[i]!.states, states)));
  const [loop, search, path] = byTurns([
    () => bareLoop(sizes, matrices),
    () => {
      for (const [i, link] of links.entries()) {
        const { states } = columns[i + 1]!;
        forward(columns[i]!.states, states, link, columns[i]!.cost, new Int32Array(states.size), new Uint16Array(states.size));
      }
    },
    () => bestPath(lattice(made, tables).columns),
  ]) as [number, number, number];
  const against = `against a bare min-plus loop over as many pairs of states`;
  return [
    {
      what: `search through ${made.events.length} mixed notes, ${against}`,
      ratio: search / loop,
      goal: { most: 10 },
      measured: `${ms(search)} against ${ms(loop)}`,
    },
    {
      what: `exact path of ${made.events.length} mixed notes with every step priced, ${against}`,
      ratio: path / loop,
      goal: { most: 22 },
      measured: `${ms(path)} against ${ms(loop)}`,
    },
  ];
}

/** A link to keep: those of the maker are filled again for the next step. */
function copied(link: Link): Link {
  const { hand, steps, hops, leastStay, leastMove } = link;
  const [stay, move] = [leastStay.slice(), leastMove.slice()];
  return { ...link, hand: [...hand], steps: steps.slice(), hops: hops.slice(), leastStay: stay, leastMove: move };
}

/** The leastWork of several rounds of each, taken by turns, so that a busy moment of the machine falls on all. */
function byTurns(works: readonly (() => void)[]): readonly number[] {
  const best = works.map(() => Number.POSITIVE_INFINITY);
  for (let round = 0; round < 12; round++) {
    for (const [i, work] of works.entries()) best[i] = Math.min(best[i]!, leastWork(1, work));
  }
  return best;
}

/** Nothing but the recurrence: least of cost so far plus a matrix entry, with its argument, event by event. */
function bareLoop(sizes: readonly number[], matrices: readonly Int32Array[]): number {
  let before = new Int32Array(sizes[0]!);
  for (let event = 1; event < sizes.length; event++) {
    const [from, to, matrix] = [sizes[event - 1]!, sizes[event]!, matrices[event - 1]!];
    const after = new Int32Array(to);
    const came = new Uint16Array(to);
    for (let j = 0; j < to; j++) {
      let least = 1 << 29;
      let at = 0;
      for (let i = 0; i < from; i++) {
        const cost = before[i]! + matrix[j * from + i]!;
        if (cost < least) {
          least = cost;
          at = i;
        }
      }
      after[j] = least & 0xffff;
      came[j] = at;
    }
    before = after;
  }
  return before[0]!;
}

function edit(): Figure {
  const made = setup();
  const specs = mixedNotes(NOTES);
  const solver = createSolver();
  const start = solver.solve(passage(specs, made));
  const edited = Array.from({ length: 12 }, (_, i) => passage(specs.with(700 * i + 350, specs[i * 11]!), made));
  const full = leastWork(3, () => solver.solve(start.passage));
  let at = 0;
  const one = leastWork(edited.length, () => solver.solve(edited[at++]!, start));
  return {
    what: `one note changed in ${NOTES}, against solving them all with every table warm`,
    ratio: one / full,
    goal: { most: 1 / 50 },
    measured: `${ms(one)} against ${ms(full)}`,
  };
}
