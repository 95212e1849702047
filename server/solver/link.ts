import { NEVER } from './cost';
import { rememberedRows, rowOf } from './hand-rows';
import type { Layout } from './layout';
import { bowCosts, hopCost, landingAfter, landingCost, moveSeconds, mustWait, stepCost } from './move';
import { HOP_SHIFT, KEPT_SHIFT, LEAN_MASK, type Pairs, pairsOf } from './pairs';
import type { StateSet } from './states';

/**
 * The cost of every transition between two events, taken apart so that a table of all pairs of states
 * is never needed:
 *
 *   cost(i -> j) = hand[group of i][j] + away[shape of i][shape of j]    where the hand moves
 *                = hand[group of i][j] + still[shape of i][shape of j]   where it stays
 *
 * `hand` is the shift with the chance of landing after it, `away` the bow and what the step forbids,
 * `still` the same with hops, less the landing of fingers that are down already.
 */
export interface Link {
  /** By group of the event before. */
  readonly hand: readonly Int32Array[];
  readonly away: Int32Array;
  readonly still: Int32Array;
}

/** Fills its tables for one step after the other; they only ever grow, so nothing is allocated per transition, or per event. */
export class LinkTables implements Link {
  readonly hand: Int32Array[] = [];
  away = new Int32Array(0);
  still = new Int32Array(0);
  private readonly rows = rememberedRows();
  private readonly pairs: Pairs = pairsOf();

  fill(from: StateSet, to: StateSet): Link {
    this.fillHand(from, to.layout);
    const shapes = to.facts.count * from.facts.count;
    if (this.away.length < shapes) {
      this.away = new Int32Array(shapes * 2);
      this.still = new Int32Array(shapes * 2);
    }
    fillShapes(this, from, to, this.pairs(from.layout, to.layout));
    return this;
  }

  private fillHand(from: StateSet, to: Layout): void {
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

function fillShapes(link: Link, from: StateSet, to: StateSet, pairs: Uint8Array): void {
  const { away, still } = link;
  const { facts: before } = from;
  const { facts: after, spec } = to;
  price(from);
  const resting = landingAfter(0, 1, to.setup);
  if (landed.length < after.count * 4) landed = new Int32Array(after.count * 8);
  for (let b = 0; b < after.count; b++) {
    landed[b * 4 + 1] = landingCost(after, b, 0, resting);
    landed[b * 4 + 2] = landingCost(after, b, 1, resting);
    landed[b * 4 + 3] = landed[b * 4 + 1]! + landed[b * 4 + 2]!;
  }
  const bound = spec.held.length > 0 || spec.slide;
  let at = 0;
  for (let a = 0; a < before.count; a++) {
    for (let b = 0; b < after.count; b++, at++) {
      const pair = pairs[at]!;
      away[at] = mustWait(before, a, after, b) ? NEVER : moving[pair]!;
      still[at] = staying[pair]! - landed[b * 4 + (pair >> KEPT_SHIFT)]!;
      if (bound) {
        away[at] = Math.min(NEVER, away[at]! + stepCost(before, a, after, b, spec, false));
        still[at] = Math.min(NEVER, still[at]! + stepCost(before, a, after, b, spec, true));
      }
    }
  }
}

/** What every kind of pair costs after an event: with the hand moving, and with it staying. */
const moving = new Int32Array(256);
const staying = new Int32Array(256);
/** For each shape that comes next, what landing costs the notes that are kept: none, the first, the second, both. Grows as needed. */
let landed = new Int32Array(0);

function price({ spec }: StateSet): void {
  const hop = hopCost(spec);
  for (let lean = 0; lean <= LEAN_MASK; lean++) {
    const { crossing, skip } = bowCosts(lean, spec);
    for (let pair = lean; pair < 256; pair += LEAN_MASK + 1) {
      moving[pair] = crossing + skip;
      staying[pair] = crossing + skip + hop * ((pair >> HOP_SHIFT) & 7);
    }
  }
}

/** Cost of the first event, with nothing before it: the hand is there, the fingers must land. */
export function entry(states: StateSet): Int32Array {
  const resting = landingAfter(0, 1, states.setup);
  return states.own.map((own, j) => {
    let cost = own;
    for (let note = 0; note < states.spec.notes.length; note++)
      cost += landingCost(states.facts, states.shape[j]!, note, resting);
    return Math.min(cost, NEVER);
  });
}
