import { NEVER } from './cost';
import { entry } from './link';
import { arrivedFrom, forward } from './pass';
import type { Work } from './work';

/**
 * The paths of a solved lattice from the best on, each as many times as it looks different: paths with the same shapes are one, which
 * has the cheapest of their states.
 *
 * Sequences of shapes are led through stands: what each state of the last shape costs, less the least. Sequences that stand
 * alike go on alike, and soon do, so they share one stand, and with it every way on that was found. Each stand finds its ways on when
 * asked, the next best of the one it goes through: recursive enumeration (Jiménez and Marzal, Lecture Notes in Computer Science
 * 1668, 1999; cited from memory). What the rest of a passage costs at least is known from the backward pass, so the first is known
 * without a search. An answer costs a walk over the passage and a forward step for every stand that is new.
 */
export class ShapePaths {
  private readonly stands: Map<string, Stand>[];
  private readonly start: Stand;

  constructor(private readonly work: Work) {
    this.stands = work.lattice.columns.map(() => new Map());
    this.start = standAt(-1, -1, new Int32Array(0));
  }

  /** The states of the n-th best path, counted from 0, -1 in a gap; undefined where there are no so many. Those before it must have been asked for. */
  path(n: number): Int32Array | undefined {
    if (!this.find(this.start, n)) return undefined;
    const { columns } = this.work.lattice;
    const stands: Stand[] = [];
    let stand = this.start;
    for (let rank = n; stand.event + 1 < columns.length; ) {
      const way = this.ways(stand)[rank]!;
      stand = this.follow(stand, way.step);
      rank = way.rank;
      stands.push(stand);
    }
    const path = new Int32Array(columns.length).fill(-1);
    for (let event = columns.length - 1; event >= 0; event--) {
      const { cost } = stands[event]!;
      if (cost.length === 0) continue;
      const next = path[event + 1] ?? -1;
      // A run that ends here ends in its cheapest state.
      path[event] = next >= 0 && !columns[event + 1]!.fresh ? this.cameFrom(stands[event]!, next) : cost.indexOf(0);
    }
    return path;
  }

  /** The state of a stand that a state of the next event is best reached from. */
  private cameFrom({ event, cost, reached, came }: Stand, next: number): number {
    let state = came.get(next);
    if (state === undefined) {
      const { lattice, tables } = this.work;
      const [from, to] = [lattice.columns[event]!.states, lattice.columns[event + 1]!.states];
      state = arrivedFrom(from, to, tables.link(from, to), cost, next, reached[next]!);
      came.set(next, state);
    }
    return state;
  }

  /** True where a stand has an n-th way on; all before it are known. Goes down along the last way known of each stand as far as it must. */
  private find(stand: Stand, n: number): boolean {
    const chain: Stand[] = [];
    for (let at = stand, rank = n; rank >= this.ways(at).length && !at.done; ) {
      chain.push(at);
      const last = this.ways(at).at(-1)!;
      at = this.follow(at, last.step);
      rank = last.rank + 1;
    }
    for (let at = chain.pop(); at; at = chain.pop()) this.findNext(at);
    return stand.ways.length > n;
  }

  /** One more way on from a stand, where the stand that its last leads to knows its next. */
  private findNext(stand: Stand): void {
    const { ways, open, steps } = stand;
    const last = ways.at(-1)!;
    const beyond = this.ways(this.follow(stand, last.step))[last.rank + 1];
    if (beyond) open.push({ step: last.step, rank: last.rank + 1, extra: steps[last.step]!.extra + beyond.extra });
    if (last.rank === 0 && last.step + 1 < steps.length)
      open.push({ step: last.step + 1, rank: 0, extra: steps[last.step + 1]!.extra });
    const next = takeLeast(open);
    if (next) ways.push(next);
    else stand.done = true;
  }

  /** The ways on from a stand that are known, at least one. */
  private ways(stand: Stand): readonly WayOn[] {
    if (stand.ways.length === 0) {
      stand.ways.push({ step: 0, rank: 0, extra: 0 });
      if (stand.event + 1 === this.work.lattice.columns.length) stand.done = true;
      else this.goOn(stand);
    }
    return stand.ways;
  }

  /** Finds the steps from a stand to the shapes of the next event. */
  private goOn(stand: Stand): void {
    const { lattice, remaining, path, tables } = this.work;
    const event = stand.event + 1;
    const { states, fresh } = lattice.columns[event]!;
    if (states.size === 0) {
      stand.steps = [{ shape: -1, extra: 0 }];
      return;
    }
    if (fresh) stand.reached = entry(states);
    else {
      const before = lattice.columns[event - 1]!.states;
      stand.reached = new Int32Array(states.size);
      forward(before, states, tables.link(before, states), stand.cost, stand.reached);
    }
    const after = remaining.costs[event]!;
    const through = new Int32Array(states.shapes.length).fill(NEVER);
    let best = NEVER;
    for (let state = 0; state < states.size; state++) {
      const total = stand.reached[state]! + after[state]!;
      const shape = states.shape[state]!;
      if (total < through[shape]!) through[shape] = total;
      if (total < best) best = total;
    }
    const chosen = states.shape[path[event]!];
    stand.steps = [...through.keys()]
      .filter((shape) => through[shape]! < NEVER)
      .map((shape) => ({ shape, extra: through[shape]! - best }))
      .sort((a, b) => a.extra - b.extra || Number(b.shape === chosen) - Number(a.shape === chosen) || a.shape - b.shape);
  }

  private follow(stand: Stand, index: number): Stand {
    const step = stand.steps[index]!;
    step.to ??= this.standAfter(stand, step.shape);
    return step.to;
  }

  private standAfter({ event, reached }: Stand, shape: number): Stand {
    const { states } = this.work.lattice.columns[event + 1]!;
    const cost = reached.map((one, state) => (states.shape[state] === shape ? one : NEVER));
    const least = cost.reduce((a, b) => Math.min(a, b), NEVER);
    const key: number[] = [shape];
    for (let state = 0; state < cost.length; state++) {
      if (states.shape[state] !== shape) continue;
      if (cost[state]! < NEVER) cost[state]! -= least;
      key.push(cost[state]!);
    }
    const known = this.stands[event + 1]!;
    const name = key.join();
    const stand = known.get(name) ?? standAt(event + 1, shape, cost);
    known.set(name, stand);
    return stand;
  }
}

interface Stand {
  readonly event: number;
  readonly shape: number;
  /** By state of the event, NEVER for those of other shapes. Empty in a gap and before the first event. */
  readonly cost: Int32Array;
  /** Each state of the next event: the least cost of reaching it from here; and of those that were asked for, the state of this event it is reached from. */
  reached: Int32Array;
  readonly came: Map<number, number>;
  /** Cheapest first. */
  steps: Step[];
  /** Ways on that are found, cheapest first; of the others the cheapest may be among those that are open. */
  readonly ways: WayOn[];
  readonly open: WayOn[];
  /** There are no more ways on. */
  done: boolean;
}

/** On to a shape of the next event: what the best that goes so costs beyond the best from the same stand. */
interface Step {
  readonly shape: number;
  readonly extra: number;
  to?: Stand;
}

/** By a step, then by so many-th way of the stand it leads to; what it costs beyond the best from the same stand. */
interface WayOn {
  readonly step: number;
  readonly rank: number;
  readonly extra: number;
}

function standAt(event: number, shape: number, cost: Int32Array): Stand {
  return { event, shape, cost, reached: new Int32Array(0), came: new Map(), steps: [], ways: [], open: [], done: false };
}

function takeLeast(open: WayOn[]): WayOn | undefined {
  let least = 0;
  for (let i = 1; i < open.length; i++) {
    const [one, best] = [open[i]!, open[least]!];
    if (one.extra < best.extra || (one.extra === best.extra && one.step < best.step)) least = i;
  }
  return open.splice(least, 1)[0];
}
