import { NEVER } from './cost';
import { habitCosts } from './habits';
import { rememberedRows, rowOf } from './hand-rows';
import type { Layout } from './layout';
import { hopCost, moveSeconds, mustWait, stepCost } from './move';
import { HOP_MASK, KEPT_SHIFT, pairsOf } from './pairs';
import type { StateSet } from './states';
import { CLASSES, MOVES, type Occasion, occasionOf, STAYS, stepTables } from './step';

/**
 * The cost of every transition between two events, taken apart so that a table of all pairs of states
 * is never needed:
 *
 *   cost(i -> j) = hand[group of i][j] + steps[up or down][class of i][class of j]                       where the hand moves
 *                = hand[group of i][j] + steps[stays][class of i][class of j] + stillCost(shapes of i, j)   where it stays
 *
 * `hand` is how far the shift goes with the chance of landing after it. A class is the string and finger that guide the hand;
 * where notes are held or slid into, every shape is a class of its own.
 */
export interface Link {
  /** By group of the event before. */
  readonly hand: readonly Int32Array[];
  readonly fromClass: Uint8Array | Uint16Array;
  readonly toClass: Uint8Array | Uint16Array;
  /** The classes that come next, and how long a row of `steps` is. */
  readonly classes: Uint8Array | Uint16Array;
  readonly columns: number;
  /** What a step costs: where the hand stays, from `up` on where it goes up, from `down` on where it goes down. */
  readonly steps: Int32Array;
  readonly up: number;
  readonly down: number;
  /** A byte for every pair of shapes (see pairs.ts), and what each number of hops costs. */
  readonly pairs: Uint8Array;
  readonly hops: Int32Array;
}

/** What a step costs a pair of shapes where the hand stays, besides its classes: hops of the fingers of double stops, less the landing of fingers that are down already. */
export function stillCost({ pairs, hops }: Link, to: StateSet, a: number, b: number): number {
  const pair = pairs[a * to.facts.count + b]!;
  return hops[pair & HOP_MASK]! - to.facts.resting[b * 4 + (pair >> KEPT_SHIFT)]!;
}

/** Makes links. Their tables belong to the events' layouts and occasions, or are filled again for every link: a link is good until the next is asked for. */
export class LinkMaker {
  private readonly rows = rememberedRows();
  private readonly pairs = pairsOf();
  private readonly hand: Int32Array[] = [];
  private readonly hops = new Int32Array(HOP_MASK + 1);
  private readonly tables = new Map<Int32Array, (occasion: Occasion) => Int32Array>();

  link(from: StateSet, to: StateSet): Link {
    const { hand, hops } = this;
    const pairs = this.pairs(from.layout, to.layout);
    this.fillHand(from, to.layout);
    const hop = hopCost(from.spec);
    for (let count = 0; count <= HOP_MASK; count++) hops[count] = hop * count;
    const steps = this.steps(from, to);
    if (to.spec.held.length > 0 || to.spec.slide) return { hand, pairs, hops, ...boundBy(from, to, steps) };
    return {
      hand,
      pairs,
      hops,
      fromClass: from.class,
      toClass: to.class,
      classes: to.classes,
      columns: CLASSES,
      steps,
      up: CLASSES * CLASSES,
      down: 2 * CLASSES * CLASSES,
    };
  }

  private steps(from: StateSet, to: StateSet): Int32Array {
    const costs = habitCosts(to.setup.instrument.family);
    let tables = this.tables.get(costs);
    if (!tables) {
      tables = stepTables(costs);
      this.tables.set(costs, tables);
    }
    return tables(occasionOf(from, to));
  }

  private fillHand(from: StateSet, to: Layout): void {
    const times = [moveSeconds(from.spec, false), moveSeconds(from.spec, true)];
    const rows = [this.rows(to, times[0]!, false), this.rows(to, times[1]!, true)];
    for (let g = 0; g < from.groupPlace.length; g++) {
      const place = from.groupPlace[g]!;
      const free = from.groupFree[g]!;
      rows[free]![place] ??= rowOf(to, place, times[free]!, free === 1);
      this.hand[g] = rows[free]![place]!;
    }
  }
}

/** The part of a link that held notes and slides change: what they forbid or burden, for every pair of shapes. */
function boundBy(
  from: StateSet,
  to: StateSet,
  byClass: Int32Array,
): Pick<Link, 'fromClass' | 'toClass' | 'classes' | 'columns' | 'steps' | 'up' | 'down'> {
  const columns = to.facts.count;
  const size = from.facts.count * columns;
  const steps = new Int32Array(size * MOVES.length);
  for (const move of MOVES) {
    for (let a = 0; a < from.facts.count; a++) {
      for (let b = 0; b < columns; b++) {
        const waits = move !== STAYS && mustWait(from.facts, a, to.facts, b);
        const step = byClass[(move * CLASSES + from.facts.class[a]!) * CLASSES + to.facts.class[b]!]!;
        const cost = waits ? NEVER : step + stepCost(from.facts, a, to.facts, b, to.spec, move === STAYS);
        steps[move * size + a * columns + b] = Math.min(NEVER, cost);
      }
    }
  }
  const classes = Uint16Array.from({ length: columns }, (_, b) => b);
  return { fromClass: from.shape, toClass: to.shape, classes, columns, steps, up: size, down: 2 * size };
}

/** Cost of the first event, with nothing before it: the hand is there, the fingers must land. */
export function entry(states: StateSet): Int32Array {
  return states.own.map((own, j) => Math.min(NEVER, own + states.facts.resting[states.shape[j]! * 4 + 3]!));
}
