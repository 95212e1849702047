import { type DoubleStopIntonation, doubleStopIntonation } from '../instrument/beats';
import { centsPerMm } from '../instrument/places';
import { mmWords } from '../scene/words';
import type { Fingering } from '../solver/solution';
import type { Way } from '../solver/way';
import type { EventRule } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** Beats a second that are heard as roughness rather than as a slow swell. Assumption. */
const ROUGH = 6;
/** Two strings' stiffness alone sets pure partials apart by a few cents, and nobody minds: cents that must be missing besides. Assumption. */
const MINDED = 8;
/** Cents that a finger leans by ear without anyone's telling: a little more than a tempered third is off a pure one. Assumption. */
const LEANS = 20;
/** Intervals that are meant to be still; a second or a tritone is rough by nature. */
const CONSONANT: ReadonlySet<string> = new Set(['P1', 'm3', 'M3', 'P4', 'P5', 'm6', 'M6']);

/** Two notes of a double stop, a harmonic among them, that clash and that the ear alone can't put right. */
const rule: EventRule = {
  code: 'beating',
  severity: 'warning',
  on: 'event',
  check(subject, { fingering }, event) {
    const clash = clashOf(fingering);
    if (!clash) return undefined;
    const { just, cents, beats } = clash;
    return [
      {
        span: spotOf(subject, event),
        message:
          `These two sound ${Math.abs(cents).toFixed(0)} cents ${cents > 0 ? 'wide' : 'narrow'} of a pure ${just.upper}:${just.lower} and beat ${beats.toFixed(0)} times a second. ` +
          advice(fingering, cents),
        fixes: () => playAsOneOf(subject, event, (other) => !clashOf(other)),
      },
    ];
  },
};
export default rule;

function clashOf({ ways }: Fingering): DoubleStopIntonation | undefined {
  const [a, b] = ways;
  if (!a || !b || !(a.touch || b.touch)) return undefined;
  const heard = doubleStopIntonation(a.hz, b.hz);
  const minded = ways.some(leans) ? Math.abs(heard.cents) > LEANS : heard.beats > ROUGH && Math.abs(heard.cents) > MINDED;
  return minded && CONSONANT.has(heard.just.name) ? heard : undefined;
}

/** True where a stopping finger makes the pitch, which then follows it. */
function leans({ stop }: Way): boolean {
  return stop !== undefined;
}

function advice({ ways }: Fingering, cents: number): string {
  const leaning = ways.find(leans);
  return leaning
    ? `Lean the stopping finger by ${mmWords(Math.abs(cents) / centsPerMm(leaning.length))} until the beats stop, or play one of them another way.`
    : 'No finger can correct a natural harmonic or an open string: make one of them an artificial harmonic or a stopped note.';
}
