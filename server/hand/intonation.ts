import { centsPerMm } from '../instrument/places';
import { EAR_DELAY, EAR_SETTLING, SHORT_SLACK, VIBRATO_SLACK } from './constants';
import type { Skill } from './skill';

/**
 * What is left of a miss in the mean pitch of a note, as a share of the miss (0 to 1): all of it up to the ear's delay, then
 * less and less, as the finger is corrected exponentially. Listeners go by the mean over a tone: Larrouy-Maestri and Pfordresher,
 * Journal of Experimental Psychology: Human Perception and Performance (2018).
 */
export function missHeard(seconds: number): number {
  if (seconds <= EAR_DELAY) return 1;
  return (EAR_DELAY + EAR_SETTLING * (1 - Math.exp((EAR_DELAY - seconds) / EAR_SETTLING))) / seconds;
}

/**
 * How far off a stopping finger may land for a note of `seconds` to pass as in tune, cents. A short note is judged less strictly,
 * a long one is corrected and may be given vibrato: the longer a note, the more it forgives.
 */
export function centsToSpare({ inTune }: Skill, seconds: number): number {
  const heard = missHeard(seconds);
  return inTune / heard + SHORT_SLACK + VIBRATO_SLACK * (1 - heard);
}

/** How far off a long stopped note may be and still pass, mm, on a sounding length in mm. */
export function stoppedTolerance({ inTune }: Skill, length: number): number {
  return inTune / centsPerMm(length);
}
