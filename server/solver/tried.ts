import { type Attempts, attemptKey, type Belief, beliefAfter } from '../hand/attempts';
import { chanceWithin, landingError, spacingError } from '../hand/chance';
import type { Hand } from '../hand/hand';
import { landingsOf } from './shape';
import type { Way } from './way';

/** A way that the player has tried: what the model says of it, what the record says, and what to believe after both. */
export interface TriedWay {
  /** 0 to 1. */
  readonly model: number;
  readonly attempts: Attempts;
  readonly belief: Belief;
}

/** Undefined for a way that was never tried. */
export function triedWay(way: Way, hand: Hand): TriedWay | undefined {
  const attempts = hand.experience?.[attemptKey(way.stringName, way.kind, way.touch)];
  if (!attempts || attempts.tried === 0) return undefined;
  const model = modelChance(way, hand);
  return { model, attempts, belief: beliefAfter(model, attempts) };
}

/** The model's chance that a way comes out clean from a hand at rest, as attempts are made: what they are weighed against. */
export function modelChance(way: Way, hand: Hand): number {
  const [resting, within] = [landingError(hand, 0, 1), spacingError(hand)];
  return landingsOf(way, hand).reduce(
    (all, { tolerance, spacing }) => all * chanceWithin(tolerance, spacing ? within : resting),
    1,
  );
}
