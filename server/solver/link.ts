import { NEVER } from './cost';
import { rememberedRows, rowOf } from './hand-rows';
import { bowCosts, hopCost, moveSeconds, mustWait, stepCost } from './move';
import { HOP_SHIFT, KEPT_SHIFT, LEAN_MASK, pairsOf } from './pairs';
import type { StateSet } from './states';

/**
 * The cost of every transition between two events, taken apart so that a table of all pairs of states
 * is never needed:
 *
 *   cost(i -> j) = hand[group of i][j] + away[class of i][class of j]    where the hand moves
 *                = hand[group of i][j] + stillCost(shape of i, shape of j)   where it stays
 *
 * `hand` is the shift with the chance of landing after it. Where the hand moves, only the bow counts, so
 * the classes are few: how the bow leans, and whether a finger is down. Where notes are held or slid into,
 * every shape is a class of its own.
 */
export interface Link {
  /** By group of the event before. */
  readonly hand: readonly Int32Array[];
  readonly fromClass: Uint8Array | Uint16Array;
  readonly toClass: Uint8Array | Uint16Array;
  /** How many classes come next: the length of a row of `away`. */
  readonly classes: number;
  readonly away: Int32Array;
  /** A byte for every pair of shapes (see pairs.ts), and what each byte costs where the hand stays. */
  readonly pairs: Uint8Array;
  readonly staying: Int32Array;
  /** For every pair of shapes, what held notes and slides forbid or burden; absent where there are none. */
  readonly burden: Int32Array | undefined;
}

/** What a step costs, besides the landing, where the hand stays: bow and hops, less the landing of fingers that are down already. */
export function stillCost({ pairs, staying, burden }: Link, to: StateSet, a: number, b: number): number {
  const at = a * to.facts.count + b;
  const pair = pairs[at]!;
  const cost = staying[pair]! - to.facts.resting[b * 4 + (pair >> KEPT_SHIFT)]!;
  return burden === undefined ? cost : Math.min(NEVER, cost + burden[at]!);
}

/** Makes links. Their tables belong to the events' layouts, or are filled again for every link: a link is good until the next is asked for. */
export class LinkMaker {
  private readonly rows = rememberedRows();
  private readonly pairs = pairsOf();
  private readonly hand: Int32Array[] = [];
  private readonly leaning = new Int32Array(LEAN_MASK + 1);
  private readonly staying = new Int32Array(256);
  private away = new Int32Array(64);

  link(from: StateSet, to: StateSet): Link {
    const { hand, leaning, staying } = this;
    const pairs = this.pairs(from.layout, to.layout);
    this.fillHand(from, to);
    price(leaning, staying, from);
    if (to.spec.held.length > 0 || to.spec.slide) return { hand, pairs, staying, ...boundBy(from, to, leaning) };
    const classes = to.bearings.length;
    if (this.away.length < classes * from.bearings.length) this.away = new Int32Array(classes * from.bearings.length);
    from.bearings.forEach((before, a) => {
      to.bearings.forEach((after, b) => {
        const waits = after.free && !before.free;
        this.away[a * classes + b] = waits ? NEVER : leaning[Math.abs(before.level - after.level)]!;
      });
    });
    return { hand, pairs, staying, fromClass: from.bearing, toClass: to.bearing, classes, away: this.away, burden: undefined };
  }

  private fillHand(from: StateSet, to: StateSet): void {
    const times = [moveSeconds(from.spec, false), moveSeconds(from.spec, true)];
    const rows = times.map((seconds) => this.rows(to, seconds));
    for (let g = 0; g < from.groupPlace.length; g++) {
      const place = from.groupPlace[g]!;
      const free = from.groupFree[g]!;
      rows[free]![place] ??= rowOf(to, place, times[free]!);
      this.hand[g] = rows[free]![place]!;
    }
  }
}

/** The part of a link that held notes and slides change. */
function boundBy(
  from: StateSet,
  to: StateSet,
  leaning: Int32Array,
): Pick<Link, 'fromClass' | 'toClass' | 'classes' | 'away' | 'burden'> {
  const classes = to.facts.count;
  const away = new Int32Array(from.facts.count * classes);
  const burden = new Int32Array(from.facts.count * classes);
  let at = 0;
  for (let a = 0; a < from.facts.count; a++) {
    for (let b = 0; b < classes; b++, at++) {
      const lean = leaning[Math.abs(from.facts.level[a]! - to.facts.level[b]!)]!;
      const moving = mustWait(from.facts, a, to.facts, b) ? NEVER : lean + stepCost(from.facts, a, to.facts, b, to.spec, false);
      away[at] = Math.min(NEVER, moving);
      burden[at] = stepCost(from.facts, a, to.facts, b, to.spec, true);
    }
  }
  return { fromClass: from.shape, toClass: to.shape, classes, away, burden };
}

/** What the bow's leaning costs after an event, and what every kind of pair costs where the hand stays. */
function price(leaning: Int32Array, staying: Int32Array, { spec }: StateSet): void {
  const hop = hopCost(spec);
  for (let lean = 0; lean <= LEAN_MASK; lean++) {
    const { crossing, skip } = bowCosts(lean, spec);
    leaning[lean] = crossing + skip;
    for (let pair = lean; pair < 256; pair += LEAN_MASK + 1) {
      staying[pair] = leaning[lean]! + hop * ((pair >> HOP_SHIFT) & 7);
    }
  }
}

/** Cost of the first event, with nothing before it: the hand is there, the fingers must land. */
export function entry(states: StateSet): Int32Array {
  return states.own.map((own, j) => Math.min(NEVER, own + states.facts.resting[states.shape[j]! * 4 + 3]!));
}
