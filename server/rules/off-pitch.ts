import { pitchName } from '../music/pitch';
import { centsWords, printedPitch } from '../scene/words';
import { alternatives } from '../solver/alternatives';
import { offTemperament } from '../solver/own';
import type { Rule } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** Cents off the temperament from which a listener minds, as for a stopped note. */
const MINDED = 15;

/** A natural harmonic off the temperament: no finger can correct it. */
const rule: Rule = {
  code: 'off-pitch',
  severity: 'warning',
  on: 'solution',
  check(subject) {
    const { solution, passage } = subject;
    return solution.events.flatMap((solved, event) =>
      (solved?.fingering.ways ?? []).flatMap((way, note) => {
        const off = way.kind === 'natural' ? offTemperament(way, passage.setup) : 0;
        if (Math.abs(off) <= MINDED) return [];
        return [
          {
            span: spotOf(subject, event, note),
            message:
              `This natural harmonic sounds ${centsWords(off)} off ${printedPitch(pitchName(way.sounding))}: partial ${way.partial} of the ${way.stringName} string lies there, and no finger can correct it. ` +
              'Where it must agree with others use an artificial harmonic, whose stopping finger can lean.',
            fixes: playAsOneOf(subject, event, alternatives(solution, event), ({ ways }) =>
              ways.every((one) => one.kind !== 'natural' || Math.abs(offTemperament(one, passage.setup)) <= MINDED),
            ),
          },
        ];
      }),
    );
  },
};
export default rule;
