import { t } from '../l10n/translate';
import { intervalWords, mmWords } from '../scene/words';
import { isThird } from '../solver/own';
import type { EventRule } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** A major or minor third harmonic outside a double stop. */
const rule: EventRule = {
  code: 'lone-third',
  severity: 'warning',
  on: 'event',
  check(subject, { fingering: { ways } }, event) {
    const way = ways[0];
    if (!way || ways.length > 1 || !isThird(way)) return undefined;
    return [
      {
        span: spotOf(subject, event, 0),
        message: t(
          'A {interval} harmonic on its own: it is the most delicate kind, speaks softly and leaves the touching finger only {tolerance} on either side. It belongs in double stops, where nothing else lies under the hand. Use a fourth or a fifth harmonic, or a natural one.',
          { interval: intervalWords(way.interval), tolerance: mmWords(way.tolerance ?? 0) },
        ),
        fixes: () => playAsOneOf(subject, event, (other) => !other.ways.some(isThird)),
      },
    ];
  },
};
export default rule;
