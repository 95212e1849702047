import { handPlaces, inPosition, nearestPlace } from '../hand/places';
import type { EventSpec, NoteSpec, Setup } from '../passage/passage';
import { NEVER } from './cost';
import { factsOf, type ShapeFacts } from './facts';
import { placeCost, shapeTerms, type Terms } from './own';
import { meetsPins } from './pins';
import { isShape, type Obstacle, type Shape, shapeOf } from './shape';
import type { Way } from './way';
import { waysOf } from './ways';

/**
 * Every state of one event: a shape taken from a hand place. Kept in typed arrays, sorted by hand place
 * and, within a place, by whether any finger is down; each such run of states is a group.
 */
export interface StateSet {
  readonly spec: EventSpec;
  readonly setup: Setup;
  readonly shapes: readonly Shape[];
  readonly terms: readonly Terms[];
  readonly facts: ShapeFacts;
  readonly size: number;
  /** For each state: index of its shape, index of its hand place, cost by itself. */
  readonly shape: Uint16Array;
  readonly place: Uint8Array;
  readonly own: Int32Array;
  readonly groups: readonly Group[];
  /** mm of every hand place. */
  readonly places: Float64Array;
}

/** States `start` to `end` (not included), all at one hand place; `free` when they have no finger down. */
export interface Group {
  readonly start: number;
  readonly end: number;
  readonly place: number;
  readonly free: boolean;
}

/** The more shapes a double stop has, the longer a transition takes; past this many the dearest are left out (see `shapesOf`). */
const MOST_SHAPES = 600;

export function statesOf(spec: EventSpec, setup: Setup): StateSet {
  const { shapes, terms } = cheapest(shapesOf(spec, setup).shapes, spec, setup);
  const places = handPlaces(setup.instrument.length);
  const rows: { shape: number; place: number; own: number; free: boolean }[] = [];
  for (const [index, shape] of shapes.entries()) {
    const alone = total(terms[index] as Terms);
    for (const place of placesOf(shape, spec, places)) {
      const there = placeCost(shape, places[place] as number, setup);
      if (there < NEVER) rows.push({ shape: index, place, own: alone + there, free: shape.fingers.length === 0 });
    }
  }
  rows.sort((a, b) => a.place - b.place || Number(a.free) - Number(b.free) || a.shape - b.shape);
  return {
    spec,
    setup,
    shapes,
    terms,
    facts: factsOf(shapes, setup),
    size: rows.length,
    shape: Uint16Array.from(rows, (row) => row.shape),
    place: Uint8Array.from(rows, (row) => row.place),
    own: Int32Array.from(rows, (row) => row.own),
    groups: groupsOf(rows),
    places,
  };
}

function total(terms: Terms): number {
  return Object.values(terms).reduce((sum, cost) => sum + cost, 0);
}

function cheapest(all: readonly Shape[], spec: EventSpec, setup: Setup): { shapes: readonly Shape[]; terms: readonly Terms[] } {
  const priced = all.map((shape) => ({ shape, terms: shapeTerms(shape, spec, setup) }));
  const kept =
    priced.length <= MOST_SHAPES
      ? priced
      : priced
          .map((one, index) => ({ ...one, index, cost: total(one.terms) }))
          .sort((a, b) => a.cost - b.cost || a.index - b.index)
          .slice(0, MOST_SHAPES)
          .sort((a, b) => a.index - b.index);
  return { shapes: kept.map((one) => one.shape), terms: kept.map((one) => one.terms) };
}

function placesOf(shape: Shape, spec: EventSpec, places: Float64Array): number[] {
  const first = shape.fingers.find((placed) => placed.finger === 1);
  const all = first ? [nearestPlace(places, first.mm)] : [...places.keys()];
  const positions = spec.notes.flatMap((note) => (note.pins.position === undefined ? [] : [note.pins.position]));
  return positions.length ? all.filter((place) => positions.every((position) => inPosition(place, position))) : all;
}

function groupsOf(rows: readonly { place: number; free: boolean }[]): Group[] {
  const groups: Group[] = [];
  for (const [i, { place, free }] of rows.entries()) {
    const last = groups.at(-1);
    if (last && last.place === place && last.free === free) groups[groups.length - 1] = { ...last, end: i + 1 };
    else groups.push({ start: i, end: i + 1, place, free });
  }
  return groups;
}

/** The shapes that meet every hint, and what stood in the way of the others. */
export function shapesOf(
  spec: EventSpec,
  setup: Setup,
): { readonly shapes: readonly Shape[]; readonly obstacles: readonly Obstacle[] } {
  const shapes: Shape[] = [];
  const obstacles: Obstacle[] = [];
  const tried = (ways: readonly Way[]): boolean => {
    const made = shapeOf(ways, setup);
    if (!isShape(made)) obstacles.push(made);
    else if (ways.length === spec.notes.length) shapes.push(made);
    return isShape(made);
  };
  const [first, second] = spec.notes.map((note) => playable(note, setup));
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
