import { centsPerMm } from '../instrument/places';
import { mmWords } from '../scene/words';
import { clash } from '../solver/doubtful';
import type { Fingering } from '../solver/solution';
import type { EventRule } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** Two notes of a double stop, a harmonic among them, that clash and that the ear alone can't put right. */
const rule: EventRule = {
  code: 'beating',
  severity: 'warning',
  on: 'event',
  check(subject, { fingering }, event) {
    const heard = clash(fingering.ways);
    if (!heard) return undefined;
    const { just, cents, beats } = heard;
    return [
      {
        span: spotOf(subject, event),
        message:
          `These two sound ${Math.abs(cents).toFixed(0)} cents ${cents > 0 ? 'wide' : 'narrow'} of a pure ${just.upper}:${just.lower} and beat ${beats.toFixed(0)} times a second. ` +
          advice(fingering, cents),
        fixes: () => playAsOneOf(subject, event, ({ ways }) => !clash(ways)),
      },
    ];
  },
};
export default rule;

function advice({ ways }: Fingering, cents: number): string {
  const leaning = ways.find(({ stop }) => stop);
  return leaning
    ? `Roll the stopping finger by ${mmWords(Math.abs(cents) / centsPerMm(leaning.length))} until the beats stop, or play one of them another way.`
    : 'No finger can correct a natural harmonic or an open string: make one of them an artificial harmonic or a stopped note.';
}
