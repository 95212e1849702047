import { type Attempts, attemptKey, type Belief, beliefAfter } from '../hand/attempts';
import { chanceWithin } from '../hand/chance';
import type { Setup } from '../passage/passage';
import { roomFor, varianceOf } from './landing';
import { landingsOf } from './shape';
import { speechChance } from './speech';
import type { Way } from './way';

/** A way that the player has tried: what the model says of it, what the record says, and what to believe after both. */
export interface TriedWay {
  /** 0 to 1. */
  readonly model: number;
  readonly attempts: Attempts;
  readonly belief: Belief;
}

/** Undefined for a way that was never tried. */
export function triedWay(way: Way, setup: Setup): TriedWay | undefined {
  const attempts = setup.hand.experience?.[attemptKey(way.stringName, way.kind, way.touch)];
  if (!attempts || attempts.tried === 0) return undefined;
  const model = modelChance(way, setup);
  return { model, attempts, belief: beliefAfter(model, attempts) };
}

/** How long a note is held when a way is tried, s. Assumption. */
const TRIED_FOR = 1;

/** The model's chance that a way comes out clean from a hand at rest, slowly, as attempts are made: what they are weighed against. */
function modelChance(way: Way, setup: Setup): number {
  const { skill } = setup.hand;
  return landingsOf(way, setup.instrument.length).reduce(
    (all, landing) => all * chanceWithin(roomFor(landing, skill, TRIED_FOR), Math.sqrt(varianceOf(landing, skill))),
    speechChance(way, false, 'mf', TRIED_FOR, setup),
  );
}
