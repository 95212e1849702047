import type { Finger } from '../../grammar/tree';
import { HAND_PLACES, NECK_END } from './constants';
import type { Standing } from './hand';

/** How a finger is used: pressed down or only touching, and whether the thumb is on the string with it. */
export interface Use {
  readonly stops: boolean;
  readonly thumb: boolean;
}

/** One finger by itself, pressed down. */
export const PRESSED: Use = { stops: true, thumb: false };

/**
 * The frame of a cellist's left hand. Where the hand is, is where the first finger of the closed hand lies, one finger to a half
 * step. The first finger alone reaches back another half step, which opens the hand to a major third: the extended hand of first
 * position, first finger on a whole step and second on a major third, is the hand a half step higher with the first finger left
 * behind. Common practice, no source.
 *
 * Gives the hand places from which a finger gets to a point `semitone` half steps above the nut, nearest the nut first.
 */
export function celloStandings(finger: Finger, semitone: number, use: Use): readonly Standing[] {
  const rank = finger === 'T' ? 0 : finger;
  return FAR[rank]!.flatMap((bend) => {
    const place = semitone - CLOSED[rank]! - bend;
    return place >= 1 && place <= HAND_PLACES && canStand(finger, place, bend, use) ? [{ place: place - 1, bend }] : [];
  });
}

/** Half steps from the hand's place to thumb and fingers of the closed hand. The thumb lies a whole tone behind the first finger. */
const CLOSED: readonly number[] = [-2, 0, 1, 2, 3];

/** How far out of the closed hand thumb and fingers go anywhere, in half steps, the farthest first. */
const FAR: readonly (readonly number[])[] = [[0], [0, -1], [1, 0], [2, 1, 0], [2, 1, 0]];

/**
 * On the neck second, third and fourth finger keep to half steps: no whole tone lies between second and third, or third and
 * fourth. Past its end, and wherever the thumb is on the string, second and third finger go as the key asks, and the fourth
 * finger hardly plays at all. A finger that only touches stretches as if past the neck.
 */
function canStand(finger: Finger, place: number, bend: number, { stops, thumb }: Use): boolean {
  const past = place > NECK_END;
  if (finger === 'T' || finger === 1) return true;
  if (finger === 4 && thumb && !past) return false;
  if (finger === 4 && stops && bend > 1) return false;
  return bend === 0 || past || thumb || !stops;
}
