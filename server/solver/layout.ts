import { scaleSemitone, standings, standsAlone } from '../hand/frame';
import type { Standing } from '../hand/hand';
import { handPlaces, inPosition, positionOf } from '../hand/places';
import { semitonePlace } from '../instrument/places';
import { semitone, step } from '../music/pitch';
import type { NoteSpec, Setup } from '../passage/passage';
import { fromNats, NEVER } from './cost';
import { EFFORT } from './effort';
import { factsOf } from './facts';
import { reachCost } from './own';
import type { PlacedFinger, Shape } from './shape';
import { type ShapeSet, shapeSetOf, shapesInHalves } from './shape-set';

/**
 * Every state in which some notes can be played: a shape taken from a hand place. Kept in typed arrays,
 * sorted by hand place and, within a place, by whether any finger is down; each such run of states is a
 * group. It depends on the notes and the key alone, so events that differ only in time or loudness share it.
 */
export interface Layout extends ShapeSet {
  readonly size: number;
  /** For each state: index of its shape, index of its hand place, cost of the hand being there. */
  readonly shape: Uint16Array;
  readonly place: Uint8Array;
  readonly there: Int32Array;
  /** The classes that leads have (see step.ts), and for each state the index of its own among them. */
  readonly classes: Uint8Array;
  readonly classIndex: Uint8Array;
  /** For each state, semitones by which its lead is out of the frame. */
  readonly bend: Int8Array;
  /** First state of every group, and one past the last state; each group's hand place; 1 where no finger is down. */
  readonly groupStart: Uint16Array;
  readonly groupPlace: Uint8Array;
  readonly groupFree: Uint8Array;
  /** First state at or after every hand place, and one past the last. */
  readonly placeStart: Uint16Array;
  /** Of every hand place: mm of the first finger, and the position's number. */
  readonly places: Float64Array;
  readonly positions: Uint8Array;
  /** White-key step of every open string, and whether places count steps of the scale from there. */
  readonly openSteps: Uint8Array;
  readonly scaled: boolean;
}

interface Row extends Reached {
  readonly shape: number;
  readonly free: boolean;
}

export function layoutOf(
  notes: readonly NoteSpec[],
  setup: Setup,
  fifths: number,
  set: ShapeSet = shapeSetOf(notes, setup),
): Layout {
  const { family, strings } = setup.instrument;
  const places = handPlaces(setup.instrument);
  let { shapes, facts } = set;
  const rowsIn = (key: number, bent = true): Row[] => {
    const found: Row[] = [];
    for (const [index, shape] of shapes.entries()) {
      const free = shape.fingers.length === 0;
      for (const reached of placesOf(shape, facts.lead[index]!, notes, setup, key, bent)) {
        found.push({ shape: index, free, ...reached, there: reached.there + fromNats(EFFORT.bent * reached.others) });
      }
    }
    return found;
  };
  let rows = rowsIn(fifths, notes.length < 3);
  if (rows.length === 0 && notes.length > 2) {
    // What the hand can't hold at once in its frame it may set in two halves, as the bow breaks it.
    shapes = [...shapes, ...shapesInHalves(notes, setup)];
    facts = factsOf(shapes);
    rows = rowsIn(fifths);
  }
  // What can be played in one key can be in all: where the frame of this one has no place for it, the nearest that has (a cellist's hangs on no key).
  for (const key of rows.length > 0 || shapes.length === 0 || family === 'cello' ? [] : nearestKeys(fifths)) {
    rows = rowsIn(key);
    if (rows.length > 0) break;
  }
  rows.sort((a, b) => a.place - b.place || Number(a.free) - Number(b.free) || a.shape - b.shape);
  const classOf = Uint8Array.from(rows, ({ shape }) => facts.class[shape]!);
  const classes = Uint8Array.from(new Set(classOf)).sort();
  return {
    ...set,
    shapes,
    facts,
    size: rows.length,
    shape: Uint16Array.from(rows, (row) => row.shape),
    place: Uint8Array.from(rows, (row) => row.place),
    there: Int32Array.from(rows, (row) => row.there),
    classes,
    classIndex: classOf.map((one) => classes.indexOf(one)),
    bend: Int8Array.from(rows, (row) => row.bend),
    ...groupsOf(rows, places.length),
    places,
    positions: Uint8Array.from(places, (_, place) => positionOf(place, family)),
    openSteps: Uint8Array.from(strings, ({ pitch }) => step(pitch)),
    scaled: family !== 'cello',
  };
}

/** Other keys by sharps (flats negative), nearest first. */
function nearestKeys(fifths: number): readonly number[] {
  return Array.from({ length: 15 }, (_, i) => i - 7)
    .filter((key) => key !== fifths)
    .sort((a, b) => Math.abs(a - fifths) - Math.abs(b - fifths));
}

/** A hand place that a shape can be taken from. */
interface Reached {
  readonly place: number;
  /** What the reach from there costs. */
  readonly there: number;
  /** Semitones by which the lead is out of the frame; the other fingers in all; the one that is farthest out. */
  readonly bend: number;
  readonly others: number;
  readonly most: number;
}

/** The hand places a shape can be taken from, those of its notes' hints. */
function placesOf(
  shape: Shape,
  lead: number,
  notes: readonly NoteSpec[],
  setup: Setup,
  fifths: number,
  bent: boolean,
): readonly Reached[] {
  const { family } = setup.instrument;
  const positions = notes.flatMap((note) => (note.pins.position === undefined ? [] : [note.pins.position]));
  const all = shape.fingers.length === 0 ? everywhere(setup) : takenFrom(shape, lead, setup, fifths, bent);
  return positions.length === 0
    ? all
    : all.filter(({ place }) => positions.every((position) => inPosition(place, position, family)));
}

function everywhere({ instrument }: Setup): readonly Reached[] {
  return Array.from(handPlaces(instrument), (_, place) => ({ place, there: 0, bend: 0, others: 0, most: 0 }));
}

/** `bent`: where no place has all fingers in its frame, those in reach that bend them least. */
function takenFrom(shape: Shape, lead: number, setup: Setup, fifths: number, bent: boolean): readonly Reached[] {
  const within = reachedFrom(shape, lead, setup, fifths, true);
  // Where a cellist's fingers can stand is settled, and a chord set in two halves is taken without a shift.
  if (within.length > 0 || !bent || setup.instrument.family === 'cello' || shape.hands.length > 1) return within;
  const taken = reachedFrom(shape, lead, setup, fifths, false);
  const least = Math.min(...taken.map(({ most }) => most));
  return taken.filter(({ most }) => most === least);
}

/** The places from which every finger of a shape is in reach; `framed`: each in its frame, or as far out of it as it goes. */
function reachedFrom(shape: Shape, lead: number, setup: Setup, fifths: number, framed: boolean): readonly Reached[] {
  const { fingers } = shape;
  const { family } = setup.instrument;
  const thumb = fingers.some(({ finger }) => finger === 'T');
  const lone = fingers.length === 1 ? fingers[0]! : undefined;
  const fits = (bend: number) =>
    !framed || family === 'cello' || (lone ? standsAlone(lone.finger, bend, family) : Math.abs(bend) <= 1);
  const standing = fingers.map((finger) => standingsOf(finger, setup, fifths, thumb));
  const found: Reached[] = [];
  for (const { place } of standing[0]!) {
    let [bend, others, most] = [0, 0, 0];
    let stands = true;
    for (let f = 0; f < standing.length && stands; f++) {
      const one = bendAt(standing[f]!, place);
      stands = one !== undefined && fits(one);
      if (one === undefined) break;
      if (f === lead) bend = one;
      else others += Math.abs(one);
      most = Math.max(most, Math.abs(one));
    }
    if (!stands) continue;
    let there = spanCost(shape, place, setup, fifths, 0);
    // A first finger that is not down comes along with a lone one that leaves the frame.
    if (lone && bend !== 0) there = Math.min(there, spanCost(shape, place, setup, fifths, Math.sign(bend)));
    if (there < NEVER) found.push({ place, there, bend, others, most });
  }
  return found;
}

function bendAt(standing: readonly Standing[], place: number): number | undefined {
  for (const one of standing) if (one.place === place) return one.bend;
  return undefined;
}

function spanCost(shape: Shape, place: number, setup: Setup, fifths: number, lift: number): number {
  return reachCost(shape, (finger) => firstFinger(finger, place, setup, fifths, lift), setup);
}

/** How a finger stands on the lowest of its strings. */
function standingsOf(
  { finger, strings, pitches, stops }: PlacedFinger,
  { instrument }: Setup,
  fifths: number,
  thumb: boolean,
): readonly Standing[] {
  const { pitch } = instrument.strings[strings[0]!]!;
  return standings(finger, semitone(pitches[0]!) - semitone(pitch), pitch, fifths, instrument.family, { stops, thumb });
}

/** mm of the first finger on a finger's string, the hand at a place, the finger so many semitones out of the frame. */
function firstFinger({ strings }: PlacedFinger, place: number, { instrument }: Setup, fifths: number, lift: number): number {
  if (instrument.family === 'cello') return handPlaces(instrument)[place]!;
  const { pitch } = instrument.strings[strings[0]!]!;
  return semitonePlace(instrument.length, Math.max(0.5, scaleSemitone(step(pitch) + place, fifths) - semitone(pitch) + lift));
}

function groupsOf(rows: readonly Row[], places: number): Pick<Layout, 'groupStart' | 'groupPlace' | 'groupFree' | 'placeStart'> {
  const firsts = [...rows.keys()].filter((i) => rows[i]!.place !== rows[i - 1]?.place || rows[i]!.free !== rows[i - 1]?.free);
  const placeStart = new Uint16Array(places + 1);
  for (const { place } of rows) placeStart[place + 1]!++;
  for (let place = 0; place < places; place++) placeStart[place + 1]! += placeStart[place]!;
  return {
    groupStart: Uint16Array.from([...firsts, rows.length]),
    groupPlace: Uint8Array.from(firsts, (i) => rows[i]!.place),
    groupFree: Uint8Array.from(firsts, (i) => (rows[i]!.free ? 1 : 0)),
    placeStart,
  };
}
