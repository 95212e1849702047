import { NEVER } from './cost';
import type { Link } from './link';
import type { StateSet } from './states';

/**
 * One step of the exact least-cost pass, forward or backward, over typed arrays and without
 * allocating: a transition costs two look-ups and an addition (see link.ts for how its cost is taken
 * apart). Ties go to the lower state.
 */

/** Grows as needed and is used again: shapes of the next event times groups of this one. */
let best = new Int32Array(0);
let arg = new Uint16Array(0);

function scratch(size: number): void {
  if (best.length >= size) return;
  best = new Int32Array(size * 2);
  arg = new Uint16Array(size * 2);
}

/**
 * Least cost of each state of `to` over all states of `from`, whose costs so far are `before`.
 * Writes `after` and, for each state, the state it came from. Costs above NEVER are cut to NEVER.
 */
export function forward(
  from: StateSet,
  to: StateSet,
  link: Link,
  before: Int32Array,
  after: Int32Array,
  came: Uint16Array,
): void {
  const groups = from.groups.length;
  const shapes = from.shapes.length;
  scratch(to.shapes.length * groups);
  // Where the hand moves, only the shape that comes next matters, not the place it is taken from.
  for (let s = 0; s < to.shapes.length; s++) {
    const row = s * shapes;
    for (let g = 0; g < groups; g++) {
      const { start, end } = from.groups[g]!;
      let least = NEVER * 2;
      let at = start;
      for (let i = start; i < end; i++) {
        const cost = before[i]! + link.away[row + from.shape[i]!]!;
        if (cost < least) {
          least = cost;
          at = i;
        }
      }
      best[s * groups + g] = least;
      arg[s * groups + g] = at;
    }
  }
  for (let j = 0; j < to.size; j++) {
    const s = to.shape[j]!;
    const place = to.place[j]!;
    let least = NEVER * 2;
    let at = 0;
    for (let g = 0; g < groups; g++) {
      const group = from.groups[g]!;
      const hand = link.hand[g * to.size + j]!;
      if (group.place !== place) {
        const cost = best[s * groups + g]! + hand;
        if (cost < least) {
          least = cost;
          at = arg[s * groups + g]!;
        }
      } else {
        const row = s * shapes;
        for (let i = group.start; i < group.end; i++) {
          const cost = before[i]! + link.still[row + from.shape[i]!]! + hand;
          if (cost < least) {
            least = cost;
            at = i;
          }
        }
      }
    }
    after[j] = least >= NEVER ? NEVER : Math.min(NEVER, least + to.own[j]!);
    came[j] = at;
  }
}

/** Least cost from each state of `from` to the end, given `beyond`: that of each state of `to`, its own cost not included. */
export function backward(from: StateSet, to: StateSet, link: Link, beyond: Int32Array, out: Int32Array): void {
  const shapes = from.shapes.length;
  scratch(to.shapes.length);
  for (let g = 0; g < from.groups.length; g++) {
    const { start, end, place } = from.groups[g]!;
    const row = g * to.size;
    best.fill(NEVER * 2, 0, to.shapes.length);
    for (let i = start; i < end; i++) out[i] = NEVER;
    for (let j = 0; j < to.size; j++) {
      const cost = Math.min(NEVER, beyond[j]! + to.own[j]!) + link.hand[row + j]!;
      const s = to.shape[j]!;
      if (to.place[j] !== place) {
        if (cost < best[s]!) best[s] = cost;
      } else {
        for (let i = start; i < end; i++) {
          const here = cost + link.still[s * shapes + from.shape[i]!]!;
          if (here < out[i]!) out[i] = here;
        }
      }
    }
    for (let s = 0; s < to.shapes.length; s++) {
      const cost = best[s]!;
      if (cost >= NEVER) continue;
      for (let i = start; i < end; i++) {
        const away = cost + link.away[s * shapes + from.shape[i]!]!;
        if (away < out[i]!) out[i] = away;
      }
    }
  }
}
