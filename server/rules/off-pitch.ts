import { ordinal } from '../../grammar/hint-names';
import { t } from '../l10n/translate';
import { pitchName } from '../music/pitch';
import { centsAway, printedPitch } from '../scene/words';
import { isOffPitch, offTemperament } from '../solver/doubtful';
import type { Way } from '../solver/way';
import type { EventRule, Finding } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** `31 cents below F6`, by the figure that is shown of this pitch everywhere; another temperament asks for another place. */
function figure(way: Way, off: number): string {
  const asked = centsAway(way.cents - off);
  const sounds = centsAway(way.cents);
  const pitch = printedPitch(pitchName(way.sounding));
  const heard = sounds ? t('{cents} {pitch}', { cents: sounds, pitch }) : t('as {pitch}', { pitch });
  return asked ? t('{heard}, where the temperament asks for {asked}', { heard, asked }) : heard;
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
      if (!isOffPitch(way, setup)) continue;
      found ??= [];
      found.push({
        span: spotOf(subject, event, note),
        message: t(
          'This natural harmonic sounds {figure}: it is the {partial} partial on {string}, and no finger can correct it. Where it must agree with other notes, use an artificial harmonic: its stopping finger can adjust.',
          { figure: figure(way, offTemperament(way, setup)), partial: ordinal(way.partial), string: way.stringName },
        ),
        fixes: () => playAsOneOf(subject, event, (other) => !other.ways.some((one) => isOffPitch(one, setup))),
      });
    }
    return found;
  },
};
export default rule;
