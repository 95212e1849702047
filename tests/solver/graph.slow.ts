import Graph from 'graphology';
import { dijkstra } from 'graphology-shortest-path';
import highsLoader from 'highs';
import { describe, expect, it } from 'vitest';
import { kBest } from '../../server/solver/best';
import { NAT } from '../../server/solver/cost';
import { createSolver } from '../../server/solver/solve';
import { line, passage } from './build';
import { edges, steps } from './oracle';

const PASSAGE = 'G4 B4 D5 G5 D6o F#6o A4+E5 E5<>A5 G6o A5 D5 B4 F#5 C5+E5 A6 B5 D6o G5 C5+E5 E6o D6o F#6o';

describe('the solver against libraries on the same states', () => {
  it('costs what Dijkstra of graphology finds on twenty-two events', () => {
    const solution = createSolver().solve(passage(line(PASSAGE)));
    const graph = new Graph({ type: 'directed' });
    for (const [from, to, weight] of edges(steps(solution))) {
      graph.mergeNode(from);
      graph.mergeNode(to);
      graph.addEdge(from, to, { weight });
    }
    const path = dijkstra.bidirectional(graph, 'start', 'end', 'weight')!;
    const cost = path
      .slice(1)
      .reduce((sum, node, i) => sum + (graph.getEdgeAttribute(graph.edge(path[i]!, node), 'weight') as number), 0);
    expect(Math.round(solution.cost * NAT)).toBe(cost);
    expect(graph.size).toBeGreaterThan(20_000);
  });

  it('costs what the linear programme of the shortest path costs, and the second best with the best cut off', async () => {
    const highs = await highsLoader();
    const solution = createSolver().solve(passage(line('D5 A4 B4 E5')));
    const oracle = steps(solution);
    const all = [...edges(oracle)];
    const optimum = (cut: string[] = []) => Math.round(highs.solve(programme(all, cut), { output_flag: false }).ObjectiveValue);
    expect(Math.round(solution.cost * NAT)).toBe(optimum());
    // Forbid the best sequence of shapes: of the edges into its shapes, not all may be used.
    const shapes = [...solution.work.path].map((state, event) => oracle.shape(event, state));
    const used = all.flatMap(([, to], i) => {
      const [event, state] = to.split('/').map(Number);
      return to !== 'end' && oracle.shape(event!, state!) === shapes[event!] ? [`x${i}`] : [];
    });
    const second = kBest(solution, 2)[1]!;
    expect(Math.round(second.cost * NAT)).toBe(optimum([` cut: ${used.join(' + ')} <= ${shapes.length - 1}`]));
  });
});

/** One unit of flow from start to end at least cost, in the LP format. */
function programme(all: readonly (readonly [string, string, number])[], cut: readonly string[]): string {
  const rows = new Map<string, string[]>();
  const add = (node: string, term: string) => rows.set(node, [...(rows.get(node) ?? []), term]);
  for (const [i, [from, to]] of all.entries()) {
    add(from, `- x${i}`);
    add(to, `+ x${i}`);
  }
  const flow = [...rows].map(
    ([node, terms], i) => ` n${i}: ${terms.join(' ')} = ${node === 'start' ? -1 : node === 'end' ? 1 : 0}`,
  );
  const names = all.map((_, i) => ` x${i}`).join('\n');
  return [
    'Minimize',
    ` cost: ${all.map(([, , weight], i) => `${weight} x${i}`).join(' + ')}`,
    'Subject To',
    ...flow,
    ...cut,
    'Binary',
    names,
    'End',
  ].join('\n');
}
