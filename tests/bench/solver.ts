import { spawnSync } from 'node:child_process';
import Graph from 'graphology';
import { dijkstra } from 'graphology-shortest-path';
import { NEVER } from '../../server/solver/cost';
import { bestPath, type Column, lattice } from '../../server/solver/lattice';
import { type Link, partedStep } from '../../server/solver/link';
import { forward } from '../../server/solver/pass';
import { createSolver } from '../../server/solver/solve';
import type { StateSet } from '../../server/solver/states';
import { createTables } from '../../server/solver/tables';
import { passage, setup } from '../solver/build';
import { edges, steps } from '../solver/oracle';
import { leastByTurns, leastWork } from '../support/least-work';
import { type Figure, ms } from './figure';
import { mixedNotes } from './mixed';

const NOTES = 10_000;

/** The exact path against a graph library on the same states, and against the barest loop there can be over all pairs of states. */
export function solverBench(): readonly Figure[] {
  return [againstGraph(), ...againstLoop(), firstSolve(), edit()];
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
      for (let round = 0; round < rounds; round++) bestPath(lattice(made, tables).columns, tables);
    }) / rounds;
  return {
    what: 'exact path of 40 mixed notes, against Dijkstra of graphology on the same states (its graph ready made)',
    ratio: library / ours,
    goal: { least: 50 },
    measured: `${ms(ours)} against ${ms(library)}, ${graph.size} steps`,
  };
}

/** The search alone, its steps priced beforehand as the loop's are; and all of a path, prices too. */
function againstLoop(): readonly Figure[] {
  const made = passage(mixedNotes(2_000), setup());
  const tables = createTables();
  const { columns } = lattice(made, tables);
  const links = columns.slice(1).map(({ states }, i) => tables.link(columns[i]!.states, states));
  const matrices = links.map((link, i) => matrixOf(link, columns[i]!.states, columns[i + 1]!.states));
  const rooms = columns.map(({ states: { size } }) => ({ cost: new Int32Array(size), came: new Uint16Array(size) }));
  const total = columns.reduce((sum, { base }) => sum + base, 0);
  if (plainLoop(columns, matrices, rooms) !== total) throw new Error('The plain loop finds another total.');
  const works = [
    () => plainLoop(columns, matrices, rooms),
    () => {
      for (const [i, link] of links.entries()) {
        forward(columns[i]!.states, columns[i + 1]!.states, link, columns[i]!.cost, rooms[i + 1]!.cost);
      }
    },
    () => bestPath(lattice(made, tables).columns, tables),
  ];
  const least = leastByTurns(
    12,
    works.map((work) => () => leastWork(1, work)),
  );
  const [loop, search, path] = least as [number, number, number];
  const limit = inC(columns, matrices);
  const against = 'against a plain loop over all pairs of its states that finds the same total';
  return [
    {
      what: `search through ${made.events.length} mixed notes, ${against}`,
      ratio: search / loop,
      goal: { most: 1.6 },
      measured: `${ms(search)} against ${ms(loop)}`,
    },
    {
      what: `exact path of ${made.events.length} mixed notes with every step priced, ${against} (wanted: 1)`,
      ratio: path / loop,
      goal: { most: 2.8 },
      measured: `${ms(path)} against ${ms(loop)}`,
    },
    ...(limit === undefined
      ? []
      : [
          {
            what: `the same path against the same loop in C, made into vector instructions (wanted: 5)`,
            ratio: path / limit,
            goal: { most: 30 },
            measured: `${ms(path)} against ${ms(limit)}`,
          },
        ]),
  ];
}

/** The plain loop in C over the same matrices, ms; undefined where no compiler is. */
function inC(columns: readonly Column[], matrices: readonly Int32Array[]): number | undefined {
  const program = '.cache/run/plain-loop';
  const made = spawnSync('cc', ['-O3', '-march=native', '-o', program, 'tests/bench/plain-loop.c'], { encoding: 'utf8' });
  if (made.error) {
    console.log('skipped: the loop in C, for there is no compiler here');
    return undefined;
  }
  if (made.status !== 0) throw new Error(made.stderr);
  const [first, ...rest] = columns;
  const parts = rest.flatMap(({ states: { size }, fresh, cost, base }, i) => [
    Int32Array.of(size, Number(fresh)),
    fresh ? cost.map((one) => Math.min(NEVER, one + base)) : matrices[i]!,
  ]);
  const input = [Int32Array.of(rest.length, first!.states.size), ...parts, first!.cost];
  const { stdout } = spawnSync(program, {
    input: Buffer.concat(input.map((one) => new Uint8Array(one.buffer))),
    encoding: 'utf8',
  });
  const [took, found] = stdout.split(' ').map(Number) as [number, number];
  const total = columns.reduce((sum, { base }) => sum + base, 0);
  if (found + first!.base !== total) throw new Error('The loop in C finds another total.');
  return took;
}

/** What every step of a link costs, the own cost of the state reached with it; a row for each state left. */
function matrixOf(link: Link, from: StateSet, to: StateSet): Int32Array {
  if (link.kind === 'pairs') return link.table;
  const matrix = new Int32Array(from.size * to.size);
  for (const g of from.groupPlace.keys()) {
    for (let i = from.groupStart[g]!; i < from.groupStart[g + 1]!; i++) {
      for (let j = 0; j < to.size; j++) matrix[i * to.size + j] = partedStep(link, from, to, g, i, j);
    }
  }
  return matrix;
}

interface Room {
  readonly cost: Int32Array;
  readonly came: Uint16Array;
}

/** Nothing but the recurrence, state left by state left: least of cost so far plus a matrix entry, with its argument. What the best path costs in all. */
function plainLoop(columns: readonly Column[], matrices: readonly Int32Array[], rooms: readonly Room[]): number {
  let before = columns[0]!.cost;
  let total = columns[0]!.base;
  for (let event = 1; event < columns.length; event++) {
    // Where nothing before counts there is nothing to search.
    if (columns[event]!.fresh) {
      before = columns[event]!.cost;
      total += columns[event]!.base;
      continue;
    }
    const { cost: after, came } = rooms[event]!;
    const matrix = matrices[event - 1]!;
    const size = after.length;
    after.fill(NEVER);
    for (let i = 0; i < before.length; i++) {
      const sofar = before[i]!;
      const row = i * size;
      for (let j = 0; j < size; j++) {
        const cost = sofar + matrix[row + j]!;
        if (cost < after[j]!) {
          after[j] = cost;
          came[j] = i;
        }
      }
    }
    let least = NEVER;
    for (let j = 0; j < size; j++) if (after[j]! < least) least = after[j]!;
    for (let j = 0; j < size; j++) if (after[j]! < NEVER) after[j]! -= least;
    total += least;
    before = after;
  }
  return total;
}

/** A passage solved for the first time, its code hot, against the same solved again: what is made of shapes, layouts and prices. */
function firstSolve(): Figure {
  const specs = mixedNotes(2_000, 11);
  const rounds = Array.from({ length: 4 }, () => {
    const made = passage(specs, setup());
    const solver = createSolver();
    return [leastWork(1, () => solver.solve(made)), leastWork(2, () => solver.solve(made))] as const;
  });
  const [first, again] = [0, 1].map((i) => Math.min(...rounds.map((round) => round[i]!))) as [number, number];
  return {
    what: 'a first solve of 2,000 mixed notes, against solving them again (wanted: 2.5)',
    ratio: first / again,
    goal: { most: 30 },
    measured: `${ms(first)} against ${ms(again)}`,
  };
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
