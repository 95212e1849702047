import { ordinal } from '../../grammar/hint-names';
import type { Family, Instrument } from '../instrument/instrument';
import { semitonePlace } from '../instrument/places';
import { HAND_PLACES, POSITIONS } from './constants';

/**
 * Where the hand can be. On violin and viola a place is a position: place n has its first finger on the n-th step of the scale
 * above the open string, so first finger low or high is the same place (its millimetres are those of the mean step). On the cello,
 * whose fingers are a semitone apart, it is the first finger's semitone: place 0 has it one semitone above the nut.
 */
export function handPlaces(instrument: Pick<Instrument, 'family' | 'length'>): Float64Array {
  let places = known.get(instrument);
  if (!places) {
    places = placesOf(instrument);
    known.set(instrument, places);
  }
  return places;
}

const known = new WeakMap<Pick<Instrument, 'family' | 'length'>, Float64Array>();

function placesOf({ family, length }: Pick<Instrument, 'family' | 'length'>): Float64Array {
  if (family === 'cello') return Float64Array.from({ length: HAND_PLACES }, (_, i) => semitonePlace(length, i + 1));
  return Float64Array.from({ length: POSITIONS }, (_, n) => semitonePlace(length, n === 0 ? 1 : (n * 12) / OCTAVE));
}

/** Number of positions in an octave. */
const OCTAVE = 7;

/**
 * How cellists count positions: the position of the first finger 1 to 12 semitones up, and for places between two the neighbour
 * whose position they are also called by. Every letter is a position, its sharp the upper one; a hand between is also the
 * extended hand of the position below, whose first finger stayed behind. Common practice, no source.
 */
const BY_SEMITONE = [0, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6, 7] as const;
const ALSO: Readonly<Record<number, -1 | 1>> = { 2: -1, 7: -1, 9: -1 };
/** Where two places have one number. */
const SIDES: Readonly<Record<number, 'lower' | 'upper'>> = {
  2: 'lower',
  3: 'upper',
  5: 'upper',
  7: 'lower',
  8: 'upper',
  9: 'lower',
  10: 'upper',
};

/** The position as players count it: 0 is half position, 1 the first, and so on up. */
export function positionOf(place: number, family: Family): number {
  return family === 'cello' ? (BY_SEMITONE[place % 12] as number) + OCTAVE * Math.floor(place / 12) : place;
}

/** True where a player would call this hand place that position. Half position has a name of its own, so it is not a low first. */
export function inPosition(place: number, position: number, family: Family): boolean {
  if (family !== 'cello') return place === position;
  const also = place === 0 ? 0 : (ALSO[place % 12] ?? 0);
  return positionOf(place, family) === position || positionOf(place + also, family) === position;
}

/** `half`, `1st`, `2nd`, `3rd`, `4th`, `11th`. */
export function positionName(position: number): string {
  return position === 0 ? 'half' : ordinal(position);
}

/** `1st`, or on the cello `lower 2nd`, `upper 2nd`. */
export function placeName(place: number, family: Family): string {
  const side = isBetween(place, family) && place > 0 ? SIDES[place % 12] : undefined;
  return `${side ? `${side} ` : ''}${positionName(positionOf(place, family))}`;
}

/** True for a place that shares its number with another and so lies between two positions. */
export function isBetween(place: number, family: Family): boolean {
  return family === 'cello' && SIDES[place % 12] !== undefined;
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
