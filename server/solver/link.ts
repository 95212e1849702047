import { NEVER } from './cost';
import { bowTerms, hopCost, landingCost, moveSeconds, shiftCost, stays, stepCost } from './move';
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

export function linkOf(from: StateSet, to: StateSet): Link {
  const link = {
    hand: new Int32Array(from.groups.length * to.size),
    away: new Int32Array(to.shapes.length * from.shapes.length),
    still: new Int32Array(to.shapes.length * from.shapes.length),
  };
  fillHand(link.hand, from, to);
  fillShapes(link, from, to);
  return link;
}

function fillHand(hand: Int32Array, from: StateSet, to: StateSet): void {
  const { setup } = to;
  let at = 0;
  for (const group of from.groups) {
    const seconds = moveSeconds(from.spec, group.free);
    const origin = from.places[group.place] as number;
    for (const target of to.groups) {
      const distance = Math.abs((to.places[target.place] as number) - origin);
      const shift = shiftCost(distance, seconds);
      for (let j = target.start; j < target.end; j++) {
        const { landings } = to.shapes[to.shape[j] as number]!;
        let cost = shift;
        for (let note = 0; note < landings.length; note++) cost += landingCost(landings[note]!, distance, seconds, setup);
        hand[at + j] = Math.min(cost, NEVER);
      }
    }
    at += to.size;
  }
}

function fillShapes(link: Link, from: StateSet, to: StateSet): void {
  let at = 0;
  for (const next of to.shapes) {
    const resting = next.landings.map((landings) => landingCost(landings, 0, 1, to.setup));
    for (const shape of from.shapes) {
      let bow = 0;
      for (const cost of Object.values(bowTerms(shape, next, from.spec))) bow += cost;
      const away = stepCost(shape, next, to.spec, false);
      const still = stepCost(shape, next, to.spec, true);
      link.away[at] = away === NEVER ? NEVER : bow + away;
      if (still === NEVER) link.still[at] = NEVER;
      else {
        let kept = 0;
        for (const [note, stay] of stays(shape, next).entries()) if (stay) kept += resting[note] as number;
        link.still[at] = bow + still + hopCost(shape, next, from.spec) - kept;
      }
      at++;
    }
  }
}

/** Cost of the first event, with nothing before it: the hand is there, the fingers must land. */
export function entry(states: StateSet): Int32Array {
  const cost = new Int32Array(states.size);
  for (let j = 0; j < states.size; j++) {
    const { landings } = states.shapes[states.shape[j] as number]!;
    let sum = states.own[j] as number;
    for (const one of landings) sum += landingCost(one, 0, 1, states.setup);
    cost[j] = Math.min(sum, NEVER);
  }
  return cost;
}
