import { t } from '../l10n/translate';
import { mmWords, often } from '../scene/words';
import { littleRoom } from '../solver/doubtful';
import type { EventRule, Finding } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** A harmonic whose finger has next to no room to miss. */
const rule: EventRule = {
  code: 'little-room',
  severity: 'warning',
  on: 'event',
  check(subject, { fingering: { ways } }, event) {
    const { setup } = subject.passage;
    let found: Finding[] | undefined;
    for (let note = 0; note < ways.length; note++) {
      const way = ways[note]!;
      const sure = littleRoom(way, setup);
      if (sure === undefined) continue;
      found ??= [];
      found.push({
        span: spotOf(subject, event, note),
        message: t(
          'This harmonic leaves the touching finger only {tolerance} on either side before another partial speaks, and even a hand that is already in place hits it no more than {sure}. Take a lower partial or a longer string: a fifth or a fourth harmonic, or the same sound on a higher string.',
          { tolerance: mmWords(way.tolerance ?? 0), sure: often(sure) },
        ),
        fixes: () => playAsOneOf(subject, event, (other) => other.ways.every((one) => littleRoom(one, setup) === undefined)),
      });
    }
    return found;
  },
};
export default rule;
