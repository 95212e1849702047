import type { Experience } from './attempts';
import type { FingerPair, Hand, Reach } from './hand';

/** What stays comfortable: a share of the most that each pair reaches (0 to 1), or mm for the pairs that were measured. */
export type Comfort =
  | { readonly kind: 'share'; readonly share: number }
  | { readonly kind: 'measured'; readonly mm: Readonly<Partial<Record<FingerPair, number>>> };

/** What a player knows about the own hand besides its reaches. */
export interface OwnHand {
  readonly comfort?: Comfort;
  readonly landing?: NonNullable<Hand['landing']>;
  readonly experience?: Experience;
}

/** A hand with what its player knows of it. Comfortable stays between the least and the most that a pair reaches. */
export function ownHand(hand: Hand, { comfort, landing, experience }: OwnHand): Hand {
  return {
    ...hand,
    ...(comfort && { reaches: comfortable(hand.reaches, comfort) }),
    ...(landing && { landing }),
    ...(experience && { experience }),
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
