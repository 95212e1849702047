import { FINGER_PAIRS, type HandChoice, handOf } from '../hand/hands';
import type { Comfort } from '../hand/own-hand';
import type { Family } from '../instrument/instrument';
import { t } from '../l10n/translate';

/** Which comfortable reach lies beyond the most that the hand reaches, in words; undefined where none does. */
export function beyondReach(comfort: Comfort, hand: HandChoice | undefined, family: Family): string | undefined {
  if (comfort.kind === 'share' || !hand) return undefined;
  const { reaches } = handOf(hand, family);
  for (const pair of FINGER_PAIRS) {
    const [wanted, most] = [comfort.mm[pair], reaches[pair]?.most];
    if (wanted !== undefined && most !== undefined && wanted > most)
      return t('Fingers {pair} reach {most} mm at most by the hand of this file, and {wanted} mm are called comfortable.', {
        pair,
        most: Math.round(most),
        wanted,
      });
  }
  return undefined;
}
