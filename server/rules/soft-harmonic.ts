import { t } from '../l10n/translate';
import type { EventRule, Finding } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** Harmonics of this partial and up speak too softly for a loud dynamic. Common practice, no source. */
const SOFT_FROM = 5;

/** A softly speaking harmonic where the dynamic is loud. */
const rule: EventRule = {
  code: 'soft-harmonic',
  severity: 'information',
  on: 'event',
  check(subject, { fingering: { ways } }, event) {
    const { dynamic, plucked } = subject.passage.events[event]!.spec;
    if (dynamic !== 'f' && dynamic !== 'ff' && !plucked) return undefined;
    let found: Finding[] | undefined;
    for (let note = 0; note < ways.length; note++) {
      const { partial } = ways[note]!;
      if (partial < SOFT_FROM) continue;
      found ??= [];
      found.push({
        span: spotOf(subject, event, note),
        message: plucked
          ? t(
              'A plucked harmonic of partial {partial} hardly rings. Take a lower partial, best an octave, a fifth or a fourth, or play it arco.',
              { partial },
            )
          : t(
              "A harmonic of partial {partial} speaks softly and can't be forced to {dynamic}: pressed, it breaks. Mark it softer, or take a lower partial, best a fifth or a fourth harmonic.",
              { partial, dynamic },
            ),
        fixes: () => playAsOneOf(subject, event, (other) => other.ways.every((one) => one.partial < SOFT_FROM)),
      });
    }
    return found;
  },
};
export default rule;
