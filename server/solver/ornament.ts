import type { Finger } from '../../grammar/tree';
import { scaleSemitone } from '../hand/frame';
import { opening, reachOf } from '../hand/reach';
import { semitonePlace } from '../instrument/places';
import { type Pitch, semitone, step } from '../music/pitch';
import type { EventSpec, Setup } from '../passage/passage';
import { EFFORT } from './effort';
import type { Way } from './way';

/** What an ornament asks of the hand beside the note's own finger. */
export interface Ornament {
  /** The finger that plays the upper note, or plucks; absent where none is free. */
  readonly finger?: Finger;
  /** Nats. */
  readonly cost: number;
}

/** Seconds from which on a trill tires a weak finger as much as it can. Assumption. */
export const LONG_TRILL = 1;

/**
 * The finger that trills above a note, or plucks the string behind it with the left hand, and what that costs; undefined where
 * the event asks for neither. The upper note of a trill is that of the key, or as its accidental says. Only single notes are looked at.
 */
export function ornamentOf(way: Way, spec: EventSpec, setup: Setup, fifths: number): Ornament | undefined {
  if (!spec.ornament || spec.notes.length !== 1) return undefined;
  return spec.ornament === 'trill' ? trillOn(way, spec, setup, fifths) : pluckedBehind(way);
}

/**
 * From a note up to the next letter: in a key of so many sharps (negative: flats) a half or a whole step away, whatever accidental the
 * note itself has; with an accidental of its own as far as that says, up to an augmented second.
 */
export function semitonesAbove(pitch: Pitch, fifths: number, altered?: number): number {
  const next = step(pitch) + 1;
  if (altered === undefined) return Math.min(2, Math.max(1, scaleSemitone(next, fifths) - semitone(pitch)));
  return Math.min(3, Math.max(1, scaleSemitone(next, 0) + altered - semitone(pitch)));
}

function trillOn(way: Way, { seconds, upper: altered }: EventSpec, setup: Setup, fifths: number): Ornament {
  const { instrument, hand } = setup;
  const { weak, skipped, open, none } = EFFORT.trill;
  // A touching finger can't be lifted off and set again without the note being lost.
  if (way.touch) return { cost: none };
  const upper = semitonesAbove(way.sounding, fifths, altered);
  const nut = instrument.strings[way.string]!;
  const above = semitone(way.sounding) + upper - semitone(nut.pitch);
  // From the open string the first finger strikes it: clear, but it can't be made warm.
  if (!way.stop) return { finger: 1, cost: open };
  const low = way.stop.finger;
  const along = semitonePlace(instrument.length, above) - semitonePlace(instrument.length, above - upper);
  let best: Ornament = { cost: none };
  for (const finger of [1, 2, 3, 4] as const) {
    const up = low === 'T' ? finger : finger - low;
    const reach = reachOf(hand, low, finger);
    if (up < 1 || up > 2 || !reach) continue;
    const stretch = EFFORT.stretch * opening(reach, along, 0) ** 2;
    const beside = up > 1 && instrument.family !== 'cello' ? skipped : 0;
    const cost = stretch + beside + (finger === 4 ? weak * Math.min(1, seconds / LONG_TRILL) : 0);
    if (cost < best.cost) best = { finger, cost };
  }
  return best;
}

/** A finger above the stopping one plucks; from the open string any does. */
function pluckedBehind({ stop, touch }: Way): Ornament {
  const { none, fourth } = EFFORT.plucked;
  const highest = Math.max(...[stop, touch].map((at) => (typeof at?.finger === 'number' ? at.finger : 0)));
  if (highest >= 4) return { cost: none };
  return { finger: (highest + 1) as Finger, cost: highest === 3 ? fourth : 0 };
}
