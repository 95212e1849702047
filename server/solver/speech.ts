import type { Dynamic } from '../../grammar/tree';
import { chanceWithin } from '../hand/chance';
import { type Answer, chanceInTime } from '../hand/response';
import { speakingContact } from '../instrument/bow';
import type { EventSpec, Setup } from '../passage/passage';
import { fromNats } from './cost';
import type { Way } from './way';

/**
 * Chance, 0 to 1, that a harmonic speaks once its fingers are in place: in time, on a note of `seconds`, and with the bow where it can,
 * unless it is plucked. 1 for stopped and open notes.
 */
export function speechChance(
  way: Way,
  doubled: boolean,
  dynamic: Dynamic,
  seconds: number,
  { hand, instrument }: Setup,
  plucked = false,
): number {
  if (way.partial === 1) return 1;
  // No bow that could be too light or in the wrong place: the string answers once the touch has quietened what else it would sound.
  if (plucked) return chanceInTime(hand.skill, answerOf(way, doubled), 'mf', seconds);
  const { nearest, farthest } = speakingContact(way.length, way.partial, instrument.family);
  return (
    chanceInTime(hand.skill, answerOf(way, doubled), dynamic, seconds) * chanceWithin((farthest - nearest) / 2, hand.skill.bow)
  );
}

/** A harmonic as its string answers it. */
export function answerOf({ partial, hz, interval }: Way, doubled: boolean): Answer {
  return { partial, hz: hz / partial, ...(interval && { interval }), doubled };
}

/** Minus its log for a way of an event, in the solver's whole numbers. */
export function speechCost(way: Way, { notes, dynamic, plucked }: EventSpec, seconds: number, setup: Setup): number {
  return fromNats(-Math.log(speechChance(way, notes.length > 1, dynamic, seconds, setup, plucked)));
}
