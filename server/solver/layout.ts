import { HAND_PLACES } from '../hand/constants';
import { handPlaces, inPosition, nearestPlace } from '../hand/places';
import type { Family } from '../instrument/instrument';
import type { NoteSpec, Setup } from '../passage/passage';
import { NEVER } from './cost';
import { factsOf, type ShapeFacts } from './facts';
import { placeCost } from './own';
import { meetsPins } from './pins';
import { isShape, type Obstacle, type Shape, shapeOf } from './shape';
import type { Way } from './way';
import { waysOf } from './ways';

/**
 * Every state in which some notes can be played: a shape taken from a hand place. Kept in typed arrays,
 * sorted by hand place and, within a place, by whether any finger is down; each such run of states is a
 * group. It depends on the notes alone, so events that differ only in time or loudness share it.
 */
export interface Layout {
  readonly setup: Setup;
  readonly shapes: readonly Shape[];
  readonly facts: ShapeFacts;
  readonly size: number;
  /** For each state: index of its shape, index of its hand place, cost of the hand being there. */
  readonly shape: Uint16Array;
  readonly place: Uint8Array;
  readonly there: Int32Array;
  /** For each state, and by this index: all that a step asks of its shape where the hand moves. */
  readonly bearing: Uint8Array;
  readonly bearings: readonly Bearing[];
  /** First state of every group, and one past the last state; each group's hand place; 1 where no finger is down. */
  readonly groupStart: Uint16Array;
  readonly groupPlace: Uint8Array;
  readonly groupFree: Uint8Array;
  /** First state at or after every hand place, and one past the last. */
  readonly placeStart: Uint16Array;
  /** mm of every hand place. */
  readonly places: Float64Array;
}

/** How the bow leans (in half strings from I), and whether no finger is down. */
export interface Bearing {
  readonly level: number;
  readonly free: boolean;
}

export function layoutOf(notes: readonly NoteSpec[], setup: Setup): Layout {
  const { shapes } = shapesOf(notes, setup);
  const places = handPlaces(setup.instrument.length);
  const rows: { shape: number; place: number; there: number; free: boolean }[] = [];
  for (const [index, shape] of shapes.entries()) {
    for (const place of placesOf(shape, notes, places, setup.instrument.family)) {
      const there = placeCost(shape, places[place]!, setup);
      if (there < NEVER) rows.push({ shape: index, place, there, free: shape.fingers.length === 0 });
    }
  }
  rows.sort((a, b) => a.place - b.place || Number(a.free) - Number(b.free) || a.shape - b.shape);
  return {
    setup,
    shapes,
    facts: factsOf(shapes),
    size: rows.length,
    shape: Uint16Array.from(rows, (row) => row.shape),
    place: Uint8Array.from(rows, (row) => row.place),
    there: Int32Array.from(rows, (row) => row.there),
    ...bearingsOf(rows, shapes),
    ...groupsOf(rows),
    places,
  };
}

function placesOf(shape: Shape, notes: readonly NoteSpec[], places: Float64Array, family: Family): number[] {
  const first = shape.fingers.find((placed) => placed.finger === 1);
  const all = first ? [nearestPlace(places, first.mm)] : [...places.keys()];
  const positions = notes.flatMap((note) => (note.pins.position === undefined ? [] : [note.pins.position]));
  return positions.length ? all.filter((place) => positions.every((position) => inPosition(place, position, family))) : all;
}

function bearingsOf(
  rows: readonly { shape: number; free: boolean }[],
  shapes: readonly Shape[],
): Pick<Layout, 'bearing' | 'bearings'> {
  const bearings: Bearing[] = [];
  const bearing = Uint8Array.from(rows, ({ shape, free }) => {
    const level = shapes[shape]!.level * 2;
    const known = bearings.findIndex((one) => one.level === level && one.free === free);
    return known >= 0 ? known : bearings.push({ level, free }) - 1;
  });
  return { bearing, bearings };
}

function groupsOf(
  rows: readonly { place: number; free: boolean }[],
): Pick<Layout, 'groupStart' | 'groupPlace' | 'groupFree' | 'placeStart'> {
  const firsts = [...rows.keys()].filter((i) => rows[i]!.place !== rows[i - 1]?.place || rows[i]!.free !== rows[i - 1]?.free);
  return {
    groupStart: Uint16Array.from([...firsts, rows.length]),
    groupPlace: Uint8Array.from(firsts, (i) => rows[i]!.place),
    groupFree: Uint8Array.from(firsts, (i) => (rows[i]!.free ? 1 : 0)),
    placeStart: Uint16Array.from({ length: HAND_PLACES + 1 }, (_, place) => rows.filter((row) => row.place < place).length),
  };
}

/** The shapes that meet every hint, and what stood in the way of the others. */
export function shapesOf(
  notes: readonly NoteSpec[],
  setup: Setup,
): { readonly shapes: readonly Shape[]; readonly obstacles: readonly Obstacle[] } {
  const shapes: Shape[] = [];
  const obstacles: Obstacle[] = [];
  const tried = (ways: readonly Way[]): boolean => {
    const made = shapeOf(ways, setup);
    if (!isShape(made)) obstacles.push(made);
    else if (ways.length === notes.length) shapes.push(made);
    return isShape(made);
  };
  const [first, second] = notes.map((note) => playable(note, setup));
  if (!first) tried([]);
  else {
    // What one note alone can't have, two can't either.
    const able = first.filter((way) => tried([way]));
    const others = second?.filter((way) => tried([way])) ?? [];
    for (const one of able) for (const other of others) tried([one, other]);
  }
  return { shapes, obstacles };
}

/** The ways of a note that meet its hints and speak. */
function playable(note: NoteSpec, setup: Setup): readonly Way[] {
  return waysOf(note, setup).filter((way) => way.tolerance !== 0 && meetsPins(way, note.pins));
}
