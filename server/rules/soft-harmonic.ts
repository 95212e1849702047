import { alternatives } from '../solver/alternatives';
import type { Rule } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** Harmonics of this partial and up speak too softly for a loud dynamic. Common practice, no source. */
const SOFT_FROM = 5;

/** A softly speaking harmonic where the dynamic is loud. */
const rule: Rule = {
  code: 'soft-harmonic',
  severity: 'information',
  on: 'solution',
  check(subject) {
    const { solution, passage } = subject;
    return solution.events.flatMap((solved, event) => {
      const { dynamic } = passage.events[event]!.spec;
      if (dynamic !== 'f' && dynamic !== 'ff') return [];
      return (solved?.fingering.ways ?? []).flatMap((way, note) =>
        way.partial < SOFT_FROM
          ? []
          : [
              {
                span: spotOf(subject, event, note),
                message: `A harmonic of partial ${way.partial} speaks softly and can't be forced to ${dynamic}: pressed, it breaks. Mark it softer, or take a lower partial, best a fifth or a fourth harmonic.`,
                fixes: playAsOneOf(subject, event, alternatives(solution, event), ({ ways }) =>
                  ways.every((one) => one.partial < SOFT_FROM),
                ),
              },
            ],
      );
    });
  },
};
export default rule;
