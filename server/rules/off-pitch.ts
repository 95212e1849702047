import { pitchName } from '../music/pitch';
import { centsWords, printedPitch } from '../scene/words';
import { offTemperament } from '../solver/own';
import type { EventRule, Finding } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** Cents off the temperament from which a listener minds, as for a stopped note. */
const MINDED = 15;

/** A natural harmonic off the temperament: no finger can correct it. */
const rule: EventRule = {
  code: 'off-pitch',
  severity: 'warning',
  on: 'event',
  check(subject, { fingering: { ways } }, event) {
    const { setup } = subject.passage;
    let found: Finding[] | undefined;
    for (let note = 0; note < ways.length; note++) {
      const way = ways[note]!;
      const off = way.kind === 'natural' ? offTemperament(way, setup) : 0;
      if (Math.abs(off) <= MINDED) continue;
      found ??= [];
      found.push({
        span: spotOf(subject, event, note),
        message:
          `This natural harmonic sounds ${centsWords(off)} off ${printedPitch(pitchName(way.sounding))}: partial ${way.partial} of the ${way.stringName} string lies there, and no finger can correct it. ` +
          'Where it must agree with others use an artificial harmonic, whose stopping finger can lean.',
        fixes: () =>
          playAsOneOf(subject, event, (other) =>
            other.ways.every((one) => one.kind !== 'natural' || Math.abs(offTemperament(one, setup)) <= MINDED),
          ),
      });
    }
    return found;
  },
};
export default rule;
