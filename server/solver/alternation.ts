import { opening } from '../hand/reach';
import { fromNats } from './cost';
import { EFFORT } from './effort';
import { LONG_TRILL } from './ornament';
import { gapBetween, type PlacedFinger, type Shape } from './shape';
import type { StateSet } from './states';

type Bound = Pick<StateSet, 'spec' | 'setup' | 'shapes'>;

/**
 * What two notes played by turns ask of the hand, as a trill does: both fingers over their places at once, the hand still, on one
 * string if it can be. `still` says whether the hand stays. Common practice, no source.
 */
export function alternationCost(from: Bound, a: number, to: Bound, b: number, still: boolean): number {
  if (!to.spec.alternates) return 0;
  const { none, crossing, weak } = EFFORT.turns;
  const [one, two] = [from.shapes[a]!, to.shapes[b]!];
  const [here, there] = [fingersOf(one), fingersOf(two)];
  // From open strings the hand can come along before they sound.
  if (!still && here.length > 0) return fromNats(none);
  let cost = stringsApart(one, two) * crossing;
  for (const low of here) {
    for (const high of there) {
      if (low.finger === high.finger) {
        if (Math.abs(low.mm - high.mm) > SAME_PLACE) return fromNats(none);
        continue;
      }
      const gap = gapBetween(low, high, to.setup);
      if (!gap) return fromNats(none);
      const open = opening(gap.reach, gap.along, gap.across);
      if (open > 1) return fromNats(none);
      cost += EFFORT.stretch * open ** 2;
    }
  }
  if ([...here, ...there].some(({ finger }) => finger === 4)) cost += weak * Math.min(1, (2 * to.spec.seconds) / LONG_TRILL);
  return fromNats(Math.min(none, cost));
}

/** Millimetres within which a finger stays where it is. */
const SAME_PLACE = 1;

function fingersOf({ hands }: Shape): readonly PlacedFinger[] {
  return hands.flatMap(({ fingers }) => fingers);
}

/** Strings of the second that the first does not sound, at most one for each. */
function stringsApart(one: Shape, two: Shape): number {
  const sounding = new Set(one.ways.map(({ string }) => string));
  return two.ways.filter(({ string }) => !sounding.has(string)).length;
}
