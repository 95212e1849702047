import { alternationCost } from './alternation';
import { NEVER } from './cost';
import { ALL_NOTES, MOST_NOTES } from './facts';
import { habitCosts } from './habits';
import { rememberedRows, rowOf } from './hand-rows';
import { hopCost, moveSeconds, stepCost } from './move';
import { HOP_MASK, KEPT_SHIFT, pairsOf } from './pairs';
import type { StateSet } from './states';
import { MOVES, occasionOf, STAYS } from './step';
import { leastOf, StepPrices, type Steps } from './step-prices';

/** What every step between two events costs: pair by pair where the pairs are few, taken apart where they are many. */
export type Link = PairTable | PartedLink;

/** A row for each state left, a column for each state reached, whose own cost is in it; NEVER where a step is forbidden. */
export interface PairTable {
  readonly kind: 'pairs';
  readonly table: Int32Array;
  /** The least of each row. */
  readonly least: Int32Array;
}

/**
 * The cost of every transition between two events, taken apart so that no table of all pairs of states is needed:
 *
 *   cost(i -> j) = hand[group of i][j] + steps[up or down][class of i][class of j]                       where the hand moves
 *                = hand[group of i][j] + steps[stays][class of i][class of j] + stillCost(shapes of i, j)   where it stays
 *
 * `hand` is how far the shift goes with the chance of landing after it. A class is the string and finger that guide the hand;
 * where notes are held, slid into or alternate, every shape is a class of its own.
 */
export interface PartedLink {
  readonly kind: 'parted';
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
export function stillCost({ pairs, hops }: PartedLink, to: StateSet, a: number, b: number): number {
  const pair = pairs[a * to.facts.count + b]!;
  return hops[pair & HOP_MASK]! - to.facts.resting[(b << MOST_NOTES) + (pair >> KEPT_SHIFT)]!;
}

/** Pairs of states that are few: up to here their table is passed through faster than what it is taken apart into. */
const FEW_PAIRS = 16384;

/** Bytes of links to keep: those of some two thousand notes. */
const MOST_KEPT = 12 * 2 ** 20;

/** Makes links, and keeps them: the same two sets of states are gone through forwards, backwards and again after an edit. */
export class LinkMaker {
  private known = new WeakMap<StateSet, Map<StateSet, Link>>();
  private bytes = 0;
  private readonly parted = new PartedLinkMaker();

  link(from: StateSet, to: StateSet): Link {
    const known = this.known.get(from)?.get(to);
    if (known) return known;
    const parted = this.parted.link(from, to);
    const made = from.size * to.size > FEW_PAIRS ? copied(parted, from) : pairTable(parted, from, to);
    this.keep(from, to, made);
    return made;
  }

  private keep(from: StateSet, to: StateSet, link: Link): void {
    if (this.bytes > MOST_KEPT) {
      this.known = new WeakMap();
      this.bytes = 0;
    }
    let row = this.known.get(from);
    if (!row) {
      row = new Map();
      this.known.set(from, row);
    }
    row.set(to, link);
    this.bytes += (link.kind === 'pairs' ? link.table : link.steps).byteLength;
  }
}

function pairTable(link: PartedLink, from: StateSet, to: StateSet): PairTable {
  const { fromClass, toClass, steps, columns, hand } = link;
  const { groupStart, groupPlace } = from;
  const { placeStart, own, size } = to;
  const table = new Int32Array(from.size * size);
  const least = new Int32Array(from.size);
  for (let g = 0; g < groupPlace.length; g++) {
    const shift = hand[g]!;
    // States are sorted by place: those of this group's own place lie together, lower ones before them.
    const home = placeStart[groupPlace[g]!]!;
    const past = placeStart[groupPlace[g]! + 1]!;
    for (let i = groupStart[g]!; i < groupStart[g + 1]!; i++) {
      const row = fromClass[i]! * columns;
      let best = NEVER;
      for (let j = 0, at = i * size; j < size; j++, at++) {
        let cost = NEVER;
        if (j >= home && j < past) cost = partedStep(link, from, to, g, i, j);
        else {
          const step = steps[(j < home ? link.down : link.up) + row + toClass[j]!]!;
          if (step < NEVER) cost = Math.min(NEVER, step + shift[j]! + own[j]!);
        }
        table[at] = cost;
        if (cost < best) best = cost;
      }
      least[i] = best;
    }
  }
  return { kind: 'pairs', table, least };
}

/** What one step of a parted link costs, the own cost of the state reached with it: from state `i` of group `g` to state `j`. */
export function partedStep(link: PartedLink, from: StateSet, to: StateSet, g: number, i: number, j: number): number {
  const [here, there] = [from.groupPlace[g]!, to.place[j]!];
  const way = there === here ? 0 : there > here ? link.up : link.down;
  const step = link.steps[way + link.fromClass[i]! * link.columns + link.toClass[j]!]!;
  if (step >= NEVER) return NEVER;
  const still = way === 0 ? stillCost(link, to, from.shape[i]!, to.shape[j]!) : 0;
  return Math.min(NEVER, step + link.hand[g]![j]! + still + to.own[j]!);
}

/** A parted link to keep: what its maker fills again for the next one is copied, the rest belongs to the events' layouts. */
function copied(link: PartedLink, { groupPlace }: StateSet): PartedLink {
  const { hand, steps, hops, leastStay, leastMove } = link;
  const size = 3 * (link.down - link.up);
  return {
    ...link,
    hand: hand.slice(0, groupPlace.length),
    steps: steps.slice(0, size),
    hops: hops.slice(),
    leastStay: leastStay.slice(),
    leastMove: leastMove.slice(),
  };
}

/** Makes parted links, each good until the next is asked for: most are made into a table of pairs at once. */
class PartedLinkMaker {
  private readonly rows = rememberedRows();
  private readonly pairs = pairsOf();
  private readonly hand: Int32Array[] = [];
  private readonly hops = new Int32Array(HOP_MASK + 1);
  private readonly prices = new Map<Int32Array, StepPrices>();

  link(from: StateSet, to: StateSet): PartedLink {
    const { hand, hops } = this;
    const pairs = this.pairs(from.layout, to.layout);
    this.fillHand(from, to);
    const hop = hopCost(from.spec);
    for (let count = 0; count <= HOP_MASK; count++) hops[count] = hop * count;
    const { table: steps, leastStay, leastMove } = this.steps(from, to);
    if (to.spec.held.length > 0 || to.spec.slide || to.spec.alternates)
      return { kind: 'parted', hand, pairs, hops, ...boundBy(from, to, steps) };
    return {
      kind: 'parted',
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

/** The part of a link that held notes, slides and two notes by turns change: what they forbid or burden, for every pair of shapes. */
function boundBy(from: StateSet, to: StateSet, byClass: Int32Array): Omit<PartedLink, 'kind' | 'hand' | 'pairs' | 'hops'> {
  const columns = to.facts.count;
  const size = from.facts.count * columns;
  const steps = new Int32Array(size * MOVES.length);
  const before = from.facts.class.map((one) => from.classes.indexOf(one));
  const after = to.facts.class.map((one) => to.classes.indexOf(one));
  for (const move of MOVES) {
    for (let a = 0; a < from.facts.count; a++) {
      for (let b = 0; b < columns; b++) {
        const step = byClass[(move * from.classes.length + before[a]!) * to.classes.length + after[b]!]!;
        const cost = step + stepCost(from, a, to, b, move === STAYS) + alternationCost(from, a, to, b, move === STAYS);
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
