import { chanceWithin, stillVariance } from '../hand/chance';
import { centsPerMm } from '../instrument/places';
import { mmWords, often } from '../scene/words';
import type { Way } from '../solver/way';
import type { EventRule, Finding } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** A harmonic that speaks less often than this, however slowly it is played, leaves the finger too little room. */
const SURE = 0.75;

/** Room beyond this, mm either side, no hand finds too little. Assumption. */
const AMPLE = 5;

/** A harmonic whose finger has next to no room to miss. */
const rule: EventRule = {
  code: 'little-room',
  severity: 'warning',
  on: 'event',
  check(subject, { fingering: { ways } }, event) {
    const { hand, instrument } = subject.passage.setup;
    const chance = ({ touch, tolerance }: Way) => {
      if (!touch || tolerance === undefined) return 1;
      return chanceWithin(tolerance, Math.sqrt(stillVariance(hand.skill, 1 / centsPerMm(instrument.length - touch.mm))));
    };
    let found: Finding[] | undefined;
    for (let note = 0; note < ways.length; note++) {
      const way = ways[note]!;
      const { touch, tolerance } = way;
      if (!touch || tolerance === undefined || tolerance > AMPLE) continue;
      const sure = chance(way);
      if (sure >= SURE) continue;
      found ??= [];
      found.push({
        span: spotOf(subject, event, note),
        message:
          `This harmonic leaves the touching finger only ${mmWords(tolerance)} to either side before another partial speaks, and even a hand at rest lands within that no more than ${often(sure)}. ` +
          'Take a lower partial or a longer string: a fifth or a fourth harmonic, or the same sound on a higher string.',
        fixes: () => playAsOneOf(subject, event, (other) => other.ways.every((one) => chance(one) >= SURE)),
      });
    }
    return found;
  },
};
export default rule;
