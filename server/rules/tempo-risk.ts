import { chanceWithin, landingError, stoppedTolerance } from '../hand/chance';
import type { Hand } from '../hand/hand';
import { mmWords, percent } from '../scene/words';
import { chanceAt } from '../solver/ceiling';
import { stepAt } from '../solver/read';
import type { Solution } from '../solver/solution';
import type { Way } from '../solver/way';
import { isTooFar } from './far-shift';
import type { EventRule } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** A note that comes out clean less often than this is a risk: lower, and plain scales in high positions would be told. Assumption. */
const RISKY = 0.7;
/** It is the tempo's doing when at a quarter of the tempo it would come out cleaner by this much. */
const BY_TEMPO = 0.05;
const SLOW = 1 / 4;

/** A note that the tempo makes likely to be out of tune, or not to speak. */
const rule: EventRule = {
  code: 'tempo-risk',
  severity: 'warning',
  on: 'event',
  check(subject, solved, event) {
    const { solution, passage } = subject;
    // A note can be hurried only by the move to it.
    if (!solved.terms.shift) return undefined;
    const chance = solved.speaks.reduce((all, one) => all * one, 1);
    if (chance >= RISKY || chanceAt(solution, event, SLOW) - chance < BY_TEMPO) return undefined;
    const step = stepAt(solution, event)!;
    if (isTooFar(step)) return undefined;
    const safe = safeTempo(solution, event);
    const { beat, bpm } = passage.events[event]!.tempo;
    const slower =
      safe === undefined
        ? 'Practise it slowly'
        : `At ${beat.toFraction()} = ${Math.floor(bpm * safe)} it would come out ${percent(RISKY)} of the time`;
    const from = solution.events[event - 1]!.fingering.hand.mm;
    return [
      {
        span: spotOf(subject, event),
        message:
          `At this tempo it comes out clean ${percent(chance)} of the time: the hand moves ${mmWords(step.distance)} in ${step.seconds.toFixed(2)} s and must land within ${mmWords(narrowest(solved.fingering.ways))}. ` +
          `${slower}; or choose a way that lies nearer the hand.`,
        fixes: () =>
          playAsOneOf(subject, event, (other) => {
            const error = landingError(passage.setup.hand, Math.abs(other.hand.mm - from), step.seconds);
            return other.ways.reduce((all, way) => all * landed(way, error, passage.setup.hand), 1) >= RISKY;
          }),
      },
    ];
  },
};
export default rule;

/** Chance that the fingers of a note land near enough with a standard deviation of `error` mm. */
function landed({ tolerance, stop, touch, length }: Way, error: number, hand: Hand): number {
  const finger = tolerance === undefined ? 1 : chanceWithin(tolerance, error);
  return stop && touch ? finger * chanceWithin(stoppedTolerance(hand, length), error) : finger;
}

function narrowest(ways: readonly { readonly tolerance?: number }[]): number {
  return Math.min(...ways.flatMap(({ tolerance }) => (tolerance === undefined ? [] : [tolerance])));
}

/** How many times the written tempo is slow enough, in hundredths; undefined where none is. The chance falls with the tempo. */
function safeTempo(solution: Solution, event: number): number | undefined {
  let good = 4;
  let bad = 100;
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    if (chanceAt(solution, event, middle / 100) >= RISKY) good = middle;
    else bad = middle;
  }
  return good < 5 ? undefined : good / 100;
}
