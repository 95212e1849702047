import { intervalWords } from '../scene/words';
import { alternatives } from '../solver/alternatives';
import { isThird } from '../solver/own';
import type { Rule } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** A major or minor third harmonic outside a double stop. */
const rule: Rule = {
  code: 'lone-third',
  severity: 'warning',
  on: 'solution',
  check(subject) {
    return subject.solution.events.flatMap((solved, event) => {
      const way = solved?.fingering.ways[0];
      if (!way || solved.fingering.ways.length > 1 || !isThird(way)) return [];
      return [
        {
          span: spotOf(subject, event, 0),
          message:
            `A ${intervalWords(way.interval)} harmonic on its own: it is the most delicate kind, speaks softly and leaves the touching finger little room. ` +
            'It belongs in double stops, where nothing else lies under the hand. Use a fourth or a fifth harmonic, or a natural one.',
          fixes: playAsOneOf(subject, event, alternatives(subject.solution, event), ({ ways }) =>
            ways.every((one) => !isThird(one)),
          ),
        },
      ];
    });
  },
};
export default rule;
