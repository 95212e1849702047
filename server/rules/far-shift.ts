import { mmWords } from '../scene/words';
import { alternatives } from '../solver/alternatives';
import { stepAt } from '../solver/read';
import type { Rule } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** A hand that must go faster than this, mm a second, throws itself at the place rather than going there. Assumption. */
const TOO_FAST = 1000;

/** A shift too far for the time there is. */
const rule: Rule = {
  code: 'far-shift',
  severity: 'warning',
  on: 'solution',
  check(subject) {
    const { solution } = subject;
    return solution.events.flatMap((solved, event) => {
      const step = stepAt(solution, event);
      if (!solved || !step || step.distance / step.seconds <= TOO_FAST) return [];
      const before = solution.events[event - 1]!.fingering.hand;
      return [
        {
          span: spotOf(subject, event),
          message:
            `The hand must go ${mmWords(step.distance)} in ${step.seconds.toFixed(2)} s to be here, too far to arrive at ease. ` +
            'Slow down, leave time by an open string, a rest or a shorter note before it, or play it nearer the hand.',
          fixes: playAsOneOf(
            subject,
            event,
            alternatives(solution, event),
            ({ hand }) => Math.abs(hand.mm - before.mm) < step.distance / 2,
          ),
        },
      ];
    });
  },
};
export default rule;
