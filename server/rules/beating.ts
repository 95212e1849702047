import { doubleStopIntonation } from '../instrument/beats';
import { alternatives } from '../solver/alternatives';
import type { Fingering } from '../solver/solution';
import type { Rule } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** Beats a second that are heard as roughness rather than as a slow swell. Assumption. */
const ROUGH = 6;

/** Two notes of a double stop, a harmonic among them, that clash. */
const rule: Rule = {
  code: 'beating',
  severity: 'warning',
  on: 'solution',
  check(subject) {
    const { solution } = subject;
    return solution.events.flatMap((solved, event) => {
      const heard = solved && together(solved.fingering);
      if (!heard || heard.beats <= ROUGH) return [];
      const { upper, lower } = heard.just;
      return [
        {
          span: spotOf(subject, event),
          message:
            `These two sound ${Math.abs(heard.cents).toFixed(0)} cents ${heard.cents > 0 ? 'wide' : 'narrow'} of a pure ${upper}:${lower} and beat ${heard.beats.toFixed(0)} times a second. ` +
            (fixed(solved.fingering)
              ? 'Neither finger can correct a natural harmonic: make one of them artificial or stopped.'
              : 'Lean the stopping finger until the beats stop.'),
          fixes: playAsOneOf(subject, event, alternatives(solution, event), (one) => (together(one)?.beats ?? 0) <= ROUGH),
        },
      ];
    });
  },
};
export default rule;

function together({ ways: [a, b] }: Fingering) {
  return a && b && (a.touch || b.touch) ? doubleStopIntonation(a.hz, b.hz) : undefined;
}

function fixed({ ways }: Fingering): boolean {
  return ways.every(({ kind }) => kind === 'natural' || kind === 'open');
}
