import { pitchName } from '../music/pitch';
import { centsWords, printedPitch } from '../scene/words';
import { offTemperament } from '../solver/own';
import type { Way } from '../solver/way';
import type { EventRule, Finding } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** Cents off the temperament from which a listener minds, as for a stopped note. */
const MINDED = 15;

/** `−31 cents`, the figure that is shown of this pitch everywhere; another temperament asks for another place. */
function figure(way: Way, off: number): string {
  const asked = centsWords(way.cents - off);
  return `${centsWords(way.cents) || '0 cents'}${asked && `, where the temperament asks for ${asked}`}`;
}

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
          `This natural harmonic sounds ${printedPitch(pitchName(way.sounding))} ${figure(way, off)}: partial ${way.partial} of the ${way.stringName} string lies there, and no finger can correct it. ` +
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
