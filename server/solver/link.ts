import { NEVER } from './cost';
import { bowCosts, hopCost, hops, kept, landingAfter, landingCost, moveSeconds, shiftCost, stepCost } from './move';
import type { StateSet } from './states';

/**
 * The cost of every transition between two events, taken apart so that a table of all pairs of states
 * is never needed:
 *
 *   cost(i -> j) = hand[group of i][j] + away[shape of j][shape of i]    where the hand moves
 *                = hand[group of i][j] + still[shape of j][shape of i]   where it stays
 *
 * `hand` is the shift with the chance of landing after it, `away` the bow and what the step forbids,
 * `still` the same with hops, less the landing of fingers that are down already.
 */
export interface Link {
  readonly hand: Int32Array;
  readonly away: Int32Array;
  readonly still: Int32Array;
}

/** Tables that are filled for one step after the other and only ever grow: nothing is allocated per transition, or per event. */
export class LinkTables implements Link {
  hand = new Int32Array(0);
  away = new Int32Array(0);
  still = new Int32Array(0);

  fill(from: StateSet, to: StateSet): Link {
    const hand = from.groups.length * to.size;
    const shapes = to.facts.count * from.facts.count;
    if (this.hand.length < hand) this.hand = new Int32Array(hand * 2);
    if (this.away.length < shapes) {
      this.away = new Int32Array(shapes * 2);
      this.still = new Int32Array(shapes * 2);
    }
    fillHand(this.hand, from, to);
    fillShapes(this, from, to);
    return this;
  }
}

function fillHand(hand: Int32Array, from: StateSet, to: StateSet): void {
  const double = to.spec.notes.length > 1;
  const { facts, shape } = to;
  let at = 0;
  for (const group of from.groups) {
    const seconds = moveSeconds(from.spec, group.free);
    const origin = from.places[group.place]!;
    for (const target of to.groups) {
      const distance = Math.abs(to.places[target.place]! - origin);
      const shift = shiftCost(distance, seconds);
      const sharp = landingAfter(distance, seconds, to.setup);
      for (let j = target.start; j < target.end; j++) {
        const s = shape[j]!;
        let cost = shift + landingCost(facts, s, 0, sharp);
        if (double) cost += landingCost(facts, s, 1, sharp);
        hand[at + j] = cost;
      }
    }
    at += to.size;
  }
}

function fillShapes(link: Link, from: StateSet, to: StateSet): void {
  const { facts: before } = from;
  const { facts: after, spec } = to;
  const bow = bowTable(from);
  const hop = hopCost(from.spec);
  const resting = landingAfter(0, 1, to.setup);
  const bound = spec.held.length > 0 || spec.slide;
  let at = 0;
  for (let b = 0; b < after.count; b++) {
    const first = landingCost(after, b, 0, resting);
    const second = landingCost(after, b, 1, resting);
    const waits = after.fingers[b] === 0;
    for (let a = 0; a < before.count; a++, at++) {
      const lean = bow[Math.abs(before.level[a]! - after.level[b]!)]!;
      let away = lean;
      let still = lean + hop * hops(before, a, after, b);
      if (kept(before, a, after, b, 0)) still -= first;
      if (kept(before, a, after, b, 1)) still -= second;
      if (bound) {
        away = Math.min(NEVER, away + stepCost(before, a, after, b, spec, false));
        still = Math.min(NEVER, still + stepCost(before, a, after, b, spec, true));
      } else if (waits && before.fingers[a]! > 0) away = NEVER;
      link.away[at] = away;
      link.still[at] = still;
    }
  }
}

/** Cost of leaning the bow over 0 to 6 half strings. */
function bowTable(from: StateSet): Int32Array {
  return Int32Array.from({ length: 7 }, (_, halves) => {
    const { crossing, skip } = bowCosts(halves, from.spec);
    return crossing + skip;
  });
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
