import type { Family } from '../instrument/instrument';
import { CELLO_REACHES, HAND_SCALE, VIOLIN_REACHES } from './constants';
import type { FingerPair, Hand, Reach } from './hand';

export type HandName = keyof typeof HAND_SCALE;

export const HAND_NAMES = Object.keys(HAND_SCALE) as readonly HandName[];

export const FINGER_PAIRS: readonly FingerPair[] = ['1-2', '1-3', '1-4', '2-3', '2-4', '3-4', 'T-1', 'T-2', 'T-3'];

/** The pairs of fingers that have a reach on an instrument: the thumb's only on the cello. */
export function fingerPairs(family: Family): readonly FingerPair[] {
  return FINGER_PAIRS.filter((pair) => mediumReaches(family)[pair]);
}

/** One of the three hands known by name, on the given instrument. */
export function namedHand(name: HandName, family: Family): Hand {
  const reaches = mapReaches(mediumReaches(family), (reach) => scaled(reach, HAND_SCALE[name]));
  return { name, reaches };
}

/**
 * A hand measured by its player: for each measured pair the most it reaches, mm. Comfortable scales
 * with it, the least a pair can close to does not (it is the width of the fingers). Pairs not measured
 * scale by the mean ratio of the measured ones to a medium hand.
 */
export function measuredHand(most: Readonly<Partial<Record<FingerPair, number>>>, family: Family): Hand {
  const medium = mediumReaches(family);
  const ratios = FINGER_PAIRS.flatMap((pair) => {
    const own = most[pair];
    const usual = medium[pair];
    return own !== undefined && usual ? [own / usual.most] : [];
  });
  const mean = ratios.length ? ratios.reduce((a, b) => a + b, 0) / ratios.length : 1;
  const reaches = mapReaches(medium, (reach, pair) => {
    const own = most[pair];
    return scaled(reach, own === undefined ? mean : own / reach.most);
  });
  return { name: 'measured', reaches };
}

function mediumReaches(family: Family): Hand['reaches'] {
  return family === 'cello' ? CELLO_REACHES : VIOLIN_REACHES;
}

function scaled(reach: Reach, ratio: number): Reach {
  const most = reach.most * ratio;
  return { least: Math.min(reach.least, most), comfortable: reach.comfortable * ratio, most };
}

function mapReaches(reaches: Hand['reaches'], change: (reach: Reach, pair: FingerPair) => Reach): Hand['reaches'] {
  return Object.fromEntries(Object.entries(reaches).map(([pair, reach]) => [pair, change(reach, pair as FingerPair)]));
}
