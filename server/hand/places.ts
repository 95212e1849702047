import { ordinal } from '../../grammar/hint-names';
import type { Family } from '../instrument/instrument';
import { semitonePlace } from '../instrument/places';
import { HAND_PLACES } from './constants';

/**
 * Where the hand can be: the first finger on semitone 1 to 36 above the nut. A hand place is an index
 * from 0; its number of semitones is one more.
 */
export function handPlaces(length: number): Float64Array {
  return Float64Array.from({ length: HAND_PLACES }, (_, i) => semitonePlace(length, i + 1));
}

/** Number of positions in an octave. */
const OCTAVE = 7;

/**
 * How players of an instrument count positions: the position of the first finger 1 to 12 semitones up, and for places between two
 * the neighbour whose position they are also called by. On violin and viola the tritone is a high third or a low fourth, a
 * semitone above the octave a high seventh or a low eighth. On the cello every letter is a position, its sharp the upper one; a
 * hand between is also the extended hand of the position below, whose first finger stayed behind. Common practice, no source.
 */
interface Count {
  readonly bySemitone: readonly number[];
  readonly also: Readonly<Record<number, -1 | 1>>;
  /** Where two places have one number. */
  readonly sides: Readonly<Record<number, 'lower' | 'upper'>>;
}

const VIOLIN: Count = { bySemitone: [0, 1, 2, 2, 3, 4, 4, 5, 5, 6, 6, 7], also: { 0: 1, 5: -1, 10: 1 }, sides: {} };
const COUNTS: Readonly<Record<Family, Count>> = {
  violin: VIOLIN,
  viola: VIOLIN,
  cello: {
    bySemitone: [0, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6, 7],
    also: { 2: -1, 7: -1, 9: -1 },
    sides: { 2: 'lower', 3: 'upper', 5: 'upper', 7: 'lower', 8: 'upper', 9: 'lower', 10: 'upper' },
  },
};

/** The position as players count it: 0 is half position, 1 the first, and so on up. */
export function positionOf(place: number, family: Family): number {
  return (COUNTS[family].bySemitone[place % 12] as number) + OCTAVE * Math.floor(place / 12);
}

/** True where a player would call this hand place that position. Half position has a name of its own, so it is not a low first. */
export function inPosition(place: number, position: number, family: Family): boolean {
  const also = place === 0 ? 0 : (COUNTS[family].also[place % 12] ?? 0);
  return positionOf(place, family) === position || positionOf(place + also, family) === position;
}

/** `half`, `1st`, `2nd`, `3rd`, `4th`, `11th`. */
export function positionName(position: number): string {
  return position === 0 ? 'half' : ordinal(position);
}

/** `1st`, or on the cello `lower 2nd`, `upper 2nd`. */
export function placeName(place: number, family: Family): string {
  const side = place > 0 ? COUNTS[family].sides[place % 12] : undefined;
  return `${side ? `${side} ` : ''}${positionName(positionOf(place, family))}`;
}

/** True for a place that shares its number with another and so lies between two positions. */
export function isBetween(place: number, family: Family): boolean {
  return COUNTS[family].sides[place % 12] !== undefined;
}

/** From this hand place on a cellist no longer counts positions: the thumb is on the string. Past seventh. Common practice, no source. */
export const THUMB_PLACE = 12;

/** The hand place whose first finger is nearest to a point of the string, mm from the nut. */
export function nearestPlace(places: Float64Array, mm: number): number {
  let best = 0;
  for (let i = 1; i < places.length; i++) {
    if (Math.abs((places[i] as number) - mm) < Math.abs((places[best] as number) - mm)) best = i;
  }
  return best;
}
