import { chanceWithin, stillVariance } from '../hand/chance';
import { type DoubleStopIntonation, doubleStopIntonation } from '../instrument/beats';
import { centsPerMm } from '../instrument/places';
import { deviation } from '../music/temperament';
import type { Setup } from '../passage/passage';
import type { Way } from './way';

/**
 * What is doubtful about harmonics by themselves, whatever comes before them: the rules of those names warn of it, and the solver takes
 * another way where one costs no more than `EFFORT.doubtful`.
 */

/** Beats a second that are heard as roughness rather than as a slow swell. Assumption. */
const ROUGH = 6;
/** Two strings' stiffness alone sets pure partials apart by a few cents, and nobody minds: cents that must be missing besides. Assumption. */
const MINDED = 8;
/** Cents that a finger leans by ear without anyone's telling: a little more than a tempered third is off a pure one. Assumption. */
const LEANS = 20;
/** Intervals that are meant to be still; a second or a tritone is rough by nature. */
const CONSONANT: ReadonlySet<string> = new Set(['P1', 'm3', 'M3', 'P4', 'P5', 'm6', 'M6']);

/** How the two notes of a double stop clash, a harmonic among them, in a way that the ear alone can't put right; undefined where they don't. */
export function clash([a, b]: readonly Way[]): DoubleStopIntonation | undefined {
  if (!a || !b || !(a.touch || b.touch)) return undefined;
  const heard = doubleStopIntonation(a.hz, b.hz);
  const minded = a.stop || b.stop ? Math.abs(heard.cents) > LEANS : heard.beats > ROUGH && Math.abs(heard.cents) > MINDED;
  return minded && CONSONANT.has(heard.just.name) ? heard : undefined;
}

/** Cents by which a natural harmonic is off the pitch that the temperament asks. */
export function offTemperament(way: Way, setup: Setup): number {
  return way.cents - deviation(way.sounding, setup.temperament);
}

/** Cents off the temperament from which a listener minds, as for a stopped note. Assumption. */
const IN_TUNE = 15;

/** True for a natural harmonic that no listener takes for the pitch that is asked: no finger can correct it. */
export function isOffPitch(way: Way, setup: Setup): boolean {
  return way.kind === 'natural' && Math.abs(offTemperament(way, setup)) > IN_TUNE;
}

/** A harmonic that speaks less often than this, however slowly it is played, leaves the finger too little room. Assumption. */
const SURE = 0.75;
/** Room beyond this, mm either side, no hand finds too little. Assumption. */
const AMPLE = 5;

/** The chance, 0 to 1, that a hand at rest lands within the room that a harmonic leaves its touching finger, where that is too low; undefined where it isn't. */
export function littleRoom({ touch, tolerance }: Way, { hand, instrument }: Setup): number | undefined {
  if (!touch || tolerance === undefined || tolerance > AMPLE) return undefined;
  const chance = chanceWithin(tolerance, Math.sqrt(stillVariance(hand.skill, 1 / centsPerMm(instrument.length - touch.mm))));
  return chance < SURE ? chance : undefined;
}

/** How many of these hold for the notes of a shape. */
export function doubts(ways: readonly Way[], setup: Setup): number {
  let count = Number(clash(ways) !== undefined);
  for (const way of ways) count += Number(isOffPitch(way, setup)) + Number(littleRoom(way, setup) !== undefined);
  return count;
}
