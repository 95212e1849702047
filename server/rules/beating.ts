import { centsPerMm } from '../instrument/places';
import { t } from '../l10n/translate';
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
    const holes = {
      cents: Math.abs(cents).toFixed(0),
      upper: just.upper,
      lower: just.lower,
      beats: beats.toFixed(0),
      advice: advice(fingering, cents),
    };
    return [
      {
        span: spotOf(subject, event),
        message:
          cents > 0
            ? t('These two sound {cents} cents wide of a pure {upper}:{lower} and beat {beats} times a second. {advice}', holes)
            : t(
                'These two sound {cents} cents narrow of a pure {upper}:{lower} and beat {beats} times a second. {advice}',
                holes,
              ),
        fixes: () => playAsOneOf(subject, event, ({ ways }) => !clash(ways)),
      },
    ];
  },
};
export default rule;

function advice({ ways }: Fingering, cents: number): string {
  const leaning = ways.find(({ stop }) => stop);
  return leaning
    ? t('Roll the stopping finger by {distance} until the beats stop, or play one of them another way.', {
        distance: mmWords(Math.abs(cents) / centsPerMm(leaning.length)),
      })
    : t('No finger can correct a natural harmonic or an open string: make one of them an artificial harmonic or a stopped note.');
}
