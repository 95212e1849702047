import type { Family } from '../instrument/instrument';
import { t } from '../l10n/translate';
import { CELLO_REACHES, CHILD_AGES, CHILD_HAND, HAND_SCALE, SIZE_HANDS, VIOLA_REACHES, VIOLIN_REACHES } from './constants';
import type { FingerPair, Hand, Reach } from './hand';
import { type Level, skillOf } from './skill';

export type HandName = keyof typeof HAND_SCALE;

export const HAND_NAMES = Object.keys(HAND_SCALE) as readonly HandName[];

/** A hand as players say it: by name, by a child's age in years, or by the most that each measured pair of fingers reaches, mm. */
export type HandChoice =
  | { readonly kind: 'named'; readonly name: HandName }
  | { readonly kind: 'child'; readonly age: number }
  | { readonly kind: 'measured'; readonly most: Readonly<Partial<Record<FingerPair, number>>> };

export const FINGER_PAIRS: readonly FingerPair[] = ['1-2', '1-3', '1-4', '2-3', '2-4', '3-4', 'T-1', 'T-2', 'T-3'];

/** The pairs of fingers that have a reach on an instrument: the thumb's only on the cello. */
export function fingerPairs(family: Family): readonly FingerPair[] {
  return FINGER_PAIRS.filter((pair) => MEDIUM_REACHES[family][pair]);
}

/** The hand of a choice, on the given instrument, of a player of a level. */
export function handOf(choice: HandChoice, family: Family, level?: Level): Hand {
  if (choice.kind === 'named') return namedHand(choice.name, family, level);
  return choice.kind === 'child' ? childHand(choice.age, family, level) : measuredHand(choice.most, family, level);
}

/** The hand that an instrument of this size is made for: a child's for fractional sizes. `size` is the size's trade name. */
export function usualHand(family: Family, size: string | undefined): HandChoice {
  const hand = size === undefined ? undefined : SIZE_HANDS[family]?.[size];
  return typeof hand === 'number' ? { kind: 'child', age: hand } : { kind: 'named', name: hand ?? 'medium' };
}

/** One of the three hands known by name, on the given instrument. */
export function namedHand(name: HandName, family: Family, level?: Level): Hand {
  const reaches = mapReaches(MEDIUM_REACHES[family], (reach) => scaled(reach, HAND_SCALE[name]));
  return { name, reaches, skill: skillOf(level) };
}

/** The mean hand of children of an age in years (3 to 15). A child's fingers are thinner too, so that they close to less. */
export function childHand(age: number, family: Family, level?: Level): Hand {
  const scale = childScale(age);
  const reaches = mapReaches(MEDIUM_REACHES[family], (reach) => ({ ...scaled(reach, scale), least: reach.least * scale }));
  return { name: `child ${age}`, reaches, skill: skillOf(level) };
}

/** How long a child's hand is to an adult's, no unit. */
export function childScale(age: number): number {
  const { least, most } = CHILD_AGES;
  const years = Math.min(most, Math.max(least, age));
  return Math.min(1, CHILD_HAND.atSix + CHILD_HAND.perYear * (years - 6));
}

/** «medium hand», «hand of a child of 7»; `name` is a hand's name. */
export function handWords(name: string): string {
  const [, age] = name.split(' ');
  return age === undefined ? t('{name} hand', { name }) : t('hand of a child of {age}', { age });
}

/**
 * A hand measured by its player: for each measured pair the most it reaches, mm. Comfortable scales
 * with it, the least a pair can close to does not (it is the width of the fingers). Pairs not measured
 * scale by the mean ratio of the measured ones to a medium hand.
 */
export function measuredHand(most: Readonly<Partial<Record<FingerPair, number>>>, family: Family, level?: Level): Hand {
  const medium = MEDIUM_REACHES[family];
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
  return { name: 'measured', reaches, skill: skillOf(level) };
}

const MEDIUM_REACHES: Readonly<Record<Family, Hand['reaches']>> = {
  violin: VIOLIN_REACHES,
  viola: VIOLA_REACHES,
  cello: CELLO_REACHES,
};

function scaled(reach: Reach, ratio: number): Reach {
  const most = reach.most * ratio;
  return { least: Math.min(reach.least, most), comfortable: reach.comfortable * ratio, most };
}

function mapReaches(reaches: Hand['reaches'], change: (reach: Reach, pair: FingerPair) => Reach): Hand['reaches'] {
  return Object.fromEntries(Object.entries(reaches).map(([pair, reach]) => [pair, change(reach, pair as FingerPair)]));
}
