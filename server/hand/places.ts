import { ordinal } from '../../grammar/hint-names';
import { semitonePlace } from '../instrument/places';
import { HAND_PLACES } from './constants';

/**
 * Where the hand can be: the first finger on semitone 1 to 36 above the nut. A hand place is an index
 * from 0; its number of semitones is one more.
 */
export function handPlaces(length: number): Float64Array {
  return Float64Array.from({ length: HAND_PLACES }, (_, i) => semitonePlace(length, i + 1));
}

/** Number of positions in an octave, and the position of the first finger 1 to 12 semitones up. Common practice, no source. */
const OCTAVE = 7;
const BY_SEMITONE = [0, 1, 2, 2, 3, 4, 4, 5, 5, 6, 6, 7] as const;

/** The position as players count it: 0 is half position, 1 the first, and so on up. */
export function positionOf(place: number): number {
  return (BY_SEMITONE[place % 12] as number) + OCTAVE * Math.floor(place / 12);
}

/** Places between two positions, and the neighbour whose position they are also called by. Common practice, no source. */
const ALSO: Readonly<Record<number, -1 | 1>> = { 0: 1, 5: -1, 10: 1 };

/**
 * True where a player would call this hand place that position: the tritone is a high third or a low fourth, a semitone above
 * the octave a high seventh or a low eighth. Half position has a name of its own, so it is not a low first.
 */
export function inPosition(place: number, position: number): boolean {
  const also = place === 0 ? 0 : (ALSO[place % 12] ?? 0);
  return positionOf(place) === position || positionOf(place + also) === position;
}

/** `half`, `1st`, `2nd`, `3rd`, `4th`, `11th`. */
export function positionName(position: number): string {
  return position === 0 ? 'half' : ordinal(position);
}

/** The hand place whose first finger is nearest to a point of the string, mm from the nut. */
export function nearestPlace(places: Float64Array, mm: number): number {
  let best = 0;
  for (let i = 1; i < places.length; i++) {
    if (Math.abs((places[i] as number) - mm) < Math.abs((places[best] as number) - mm)) best = i;
  }
  return best;
}
