import { centsPerMm, semitonePlace } from '../instrument/places';
import type { Experience } from './attempts';
import type { FingerPair, Hand, Reach } from './hand';
import type { Skill } from './skill';

/** What stays comfortable: a share of the most that each pair reaches (0 to 1), or mm for the pairs that were measured. */
export type Comfort =
  | { readonly kind: 'share'; readonly share: number }
  | { readonly kind: 'measured'; readonly mm: Readonly<Partial<Record<FingerPair, number>>> };

/** What a player has measured of the own accuracy: how far a finger at rest lands off in first position and how far the space between two is off, mm, and what passes as in tune, cents. */
export interface Accuracy {
  readonly still?: number;
  readonly spacing?: number;
  readonly inTune?: number;
}

/** What a player knows about the own hand besides its reaches. */
export interface OwnHand {
  readonly comfort?: Comfort;
  readonly accuracy?: Accuracy;
  readonly experience?: Experience;
}

/**
 * A hand with what its player knows of it, on a string of `length` mm. Comfortable stays between the least and the most that a
 * pair reaches.
 */
export function ownHand(hand: Hand, { comfort, accuracy, experience }: OwnHand, length: number): Hand {
  return {
    ...hand,
    ...(comfort && { reaches: comfortable(hand.reaches, comfort) }),
    ...(accuracy && { skill: measured(hand.skill, accuracy, length) }),
    ...(experience && { experience }),
  };
}

/** Semitones up at which a landing is measured: the first finger in first position. */
const MEASURED_AT = 2;

/** Who lands more or less surely at rest than the level says does so after a shift too. */
function measured(skill: Skill, { still, spacing, inTune }: Accuracy, length: number): Skill {
  const cents = still === undefined ? skill.still : still * centsPerMm(length - semitonePlace(length, MEASURED_AT));
  return {
    ...skill,
    still: cents,
    shift: (skill.shift * cents) / skill.still,
    ...(spacing !== undefined && { spacing }),
    ...(inTune !== undefined && { inTune }),
  };
}

function comfortable(reaches: Hand['reaches'], comfort: Comfort): Hand['reaches'] {
  const limit = (pair: FingerPair, { comfortable: usual, most }: Reach) =>
    comfort.kind === 'share' ? most * comfort.share : (comfort.mm[pair] ?? usual);
  const changed = ([pair, reach]: [string, Reach]): [string, Reach] => {
    const wanted = limit(pair as FingerPair, reach);
    return [pair, { ...reach, comfortable: Math.min(reach.most, Math.max(reach.least, wanted)) }];
  };
  return Object.fromEntries((Object.entries(reaches) as [string, Reach][]).map(changed));
}
