import { NEVER } from './cost';
import { ALL_NOTES, MOST_NOTES } from './facts';
import { habitCosts } from './habits';
import { rememberedRows, rowOf } from './hand-rows';
import { hopCost, moveSeconds, stepCost } from './move';
import { HOP_MASK, KEPT_SHIFT, pairsOf } from './pairs';
import type { StateSet } from './states';
import { MOVES, occasionOf, STAYS } from './step';
import { leastOf, StepPrices, type Steps } from './step-prices';

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
  /** How many classes come next: how long a row of `steps` is. */
  readonly columns: number;
  /** What a step costs: where the hand stays, from `up` on where it goes up, from `down` on where it goes down. */
  readonly steps: Int32Array;
  readonly up: number;
  readonly down: number;
  /** For each class before, the least of its steps where the hand stays, and where it moves. */
  readonly leastStay: Int32Array;
  readonly leastMove: Int32Array;
  /** A byte for every pair of shapes (see pairs.ts), and what each number of hops costs. */
  readonly pairs: Uint8Array;
  readonly hops: Int32Array;
}

/** What a step costs a pair of shapes where the hand stays, besides its classes: hops of the fingers of double stops, less the landing of fingers that are down already. */
export function stillCost({ pairs, hops }: Link, to: StateSet, a: number, b: number): number {
  const pair = pairs[a * to.facts.count + b]!;
  return hops[pair & HOP_MASK]! - to.facts.resting[(b << MOST_NOTES) + (pair >> KEPT_SHIFT)]!;
}

/** Makes links. Their tables belong to the events' layouts, or are filled again for every link: a link is good until the next is asked for. */
export class LinkMaker {
  private readonly rows = rememberedRows();
  private readonly pairs = pairsOf();
  private readonly hand: Int32Array[] = [];
  private readonly hops = new Int32Array(HOP_MASK + 1);
  private readonly prices = new Map<Int32Array, StepPrices>();

  link(from: StateSet, to: StateSet): Link {
    const { hand, hops } = this;
    const pairs = this.pairs(from.layout, to.layout);
    this.fillHand(from, to);
    const hop = hopCost(from.spec);
    for (let count = 0; count <= HOP_MASK; count++) hops[count] = hop * count;
    const { table: steps, leastStay, leastMove } = this.steps(from, to);
    if (to.spec.held.length > 0 || to.spec.slide) return { hand, pairs, hops, ...boundBy(from, to, steps) };
    return {
      hand,
      pairs,
      hops,
      fromClass: from.classIndex,
      toClass: to.classIndex,
      columns: to.classes.length,
      steps,
      up: from.classes.length * to.classes.length,
      down: 2 * from.classes.length * to.classes.length,
      leastStay,
      leastMove,
    };
  }

  private steps(from: StateSet, to: StateSet): Steps {
    const costs = habitCosts(to.setup);
    let prices = this.prices.get(costs);
    if (!prices) {
      prices = new StepPrices(costs);
      this.prices.set(costs, prices);
    }
    return prices.steps(occasionOf(from, to), from, to);
  }

  private fillHand(from: StateSet, to: StateSet): void {
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
function boundBy(from: StateSet, to: StateSet, byClass: Int32Array): Omit<Link, 'hand' | 'pairs' | 'hops'> {
  const columns = to.facts.count;
  const size = from.facts.count * columns;
  const steps = new Int32Array(size * MOVES.length);
  const before = from.facts.class.map((one) => from.classes.indexOf(one));
  const after = to.facts.class.map((one) => to.classes.indexOf(one));
  for (const move of MOVES) {
    for (let a = 0; a < from.facts.count; a++) {
      for (let b = 0; b < columns; b++) {
        const step = byClass[(move * from.classes.length + before[a]!) * to.classes.length + after[b]!]!;
        const cost = step + stepCost(from, a, to, b, move === STAYS);
        steps[move * size + a * columns + b] = Math.min(NEVER, cost);
      }
    }
  }
  const least = leastOf(steps, from.facts.count, columns);
  return { fromClass: from.shape, toClass: to.shape, columns, steps, up: size, down: 2 * size, ...least };
}

/** Cost of the first event, with nothing before it: the hand is there, the fingers must land. */
export function entry(states: StateSet): Int32Array {
  return states.own.map((own, j) => Math.min(NEVER, own + states.facts.resting[(states.shape[j]! << MOST_NOTES) + ALL_NOTES]!));
}
