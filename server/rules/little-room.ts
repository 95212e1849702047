import { chanceWithin, landingError } from '../hand/chance';
import { mmWords, percent } from '../scene/words';
import type { EventRule, Finding } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** A harmonic that speaks less often than this, however slowly it is played, leaves the finger too little room. */
const SURE = 0.75;

/** A harmonic whose finger has next to no room to miss. */
const rule: EventRule = {
  code: 'little-room',
  severity: 'warning',
  on: 'event',
  check(subject, { fingering: { ways } }, event) {
    const error = landingError(subject.passage.setup.hand, 0, 1);
    const tooLittle = (room: number) => chanceWithin(room, error) < SURE;
    let found: Finding[] | undefined;
    for (let note = 0; note < ways.length; note++) {
      const { touch, tolerance } = ways[note]!;
      if (!touch || tolerance === undefined || tolerance > 2 * error || !tooLittle(tolerance)) continue;
      found ??= [];
      found.push({
        span: spotOf(subject, event, note),
        message:
          `This harmonic leaves the touching finger only ${mmWords(tolerance)} to either side before another partial speaks, and even a hand at rest lands within that no more than ${percent(chanceWithin(tolerance, error))} of the time. ` +
          'Take a lower partial or a longer string: a fifth or a fourth harmonic, or the same sound on a higher string.',
        fixes: () =>
          playAsOneOf(subject, event, (other) =>
            other.ways.every((one) => !one.touch || one.tolerance === undefined || !tooLittle(one.tolerance)),
          ),
      });
    }
    return found;
  },
};
export default rule;
