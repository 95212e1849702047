import { t } from '../l10n/translate';
import { mmWords } from '../scene/words';
import { type Step, stepAt } from '../solver/read';
import type { Alternative } from '../solver/solution';
import type { EventRule } from './rule';
import { playInPassage, spotOf } from './spot';

/**
 * A hand that must go faster than this, mm a second, throws itself at the place rather than going there. Shifts of 60 to 120 mm
 * within one sixteenth of a fast scale or arpeggio are common practice: 1300 mm a second at 1/4 = 120. Assumption.
 */
const TOO_FAST = 2000;

/** A shift too far for the time there is. */
const rule: EventRule = {
  code: 'far-shift',
  severity: 'warning',
  on: 'event',
  check(subject, solved, event) {
    const { solution } = subject;
    if (!solved.terms.shift) return undefined;
    const step = stepAt(solution, event);
    if (!step || !isTooFar(step)) return undefined;
    const after = solution.events[event + 1]?.fingering.hand;
    const leaving = stepAt(solution, event + 1);
    /** Near enough to where the hand then comes from, and no further from what comes after than it has time for. */
    const near = ({
      fingering: {
        hand: { mm },
      },
      from = mm,
    }: Alternative) =>
      !isTooFar({ ...step, distance: Math.abs(mm - from) }) &&
      (!after || !leaving || isTooFar(leaving) || !isTooFar({ ...leaving, distance: Math.abs(after.mm - mm) }));
    return [
      {
        span: spotOf(subject, event),
        message: t(
          'The hand must move {distance} in {seconds} s to get here, too far to arrive safely. Slow down, make time with an open string, a rest or a shorter note before it, or play it nearer the hand.',
          { distance: mmWords(step.distance), seconds: step.seconds.toFixed(2) },
        ),
        fixes: () => playInPassage(subject, event, near),
      },
    ];
  },
};
export default rule;

/** True for a shift that is told as one, whatever it does to the chance of the note. */
export function isTooFar({ distance, seconds }: Step): boolean {
  return distance / seconds > TOO_FAST;
}
