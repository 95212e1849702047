import type { Dynamic, TouchInterval } from '../../grammar/tree';
import { settlingSeconds } from '../instrument/response';
import { erf } from './chance';
import { DOUBLED, FORM_SECONDS, SPEECH_SPREAD, SPOKEN_BY, TOUCH_SECONDS } from './constants';
import type { Skill } from './skill';

/** A harmonic as the string answers it. */
export interface Answer {
  readonly partial: number;
  /** Frequency of the sounding length when whole, Hz. */
  readonly hz: number;
  /** The interval between the fingers of an artificial harmonic; absent for a natural one. */
  readonly interval?: TouchInterval;
  /** In a double stop. */
  readonly doubled: boolean;
}

/** Seconds from the fingers' first contact until a harmonic has spoken, as a rule (median): fingers in place and firm, then the string settled. */
export function secondsToSpeak({ pace }: Skill, { partial, hz, interval, doubled }: Answer, dynamic: Dynamic): number {
  const fingers = interval ? FORM_SECONDS[interval] : TOUCH_SECONDS;
  return (fingers * pace + settlingSeconds(partial, hz, dynamic)) * (doubled ? DOUBLED : 1);
}

/** Chance, 0 to 1, that a harmonic speaks in time on a note of `seconds`: the time it takes is spread log-normally. */
export function chanceInTime(skill: Skill, answer: Answer, dynamic: Dynamic, seconds: number): number {
  const ratio = (SPOKEN_BY * seconds) / secondsToSpeak(skill, answer, dynamic);
  return normalBelow(Math.log(ratio) / SPEECH_SPREAD);
}

/** Chance that a standard normal value lies below z. */
function normalBelow(z: number): number {
  const half = erf(Math.abs(z) / Math.SQRT2) / 2;
  return z < 0 ? 0.5 - half : 0.5 + half;
}
