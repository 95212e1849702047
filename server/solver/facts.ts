import { MANNERS } from '../../grammar/hint-names';
import { fingerIndex } from './choice';
import type { PlacedFinger, Shape } from './shape';
import { classOf } from './step';
import type { Way } from './way';

/** Fingers of a row of `ShapeFacts.fingerMm`: thumb, first to fourth. */
export const FINGER_SLOTS = 5;

/** Notes of a chord at most: one on each string. */
export const MOST_NOTES = 4;

/** The bits of all notes that there can be. */
export const ALL_NOTES = (1 << MOST_NOTES) - 1;

/** Bits of a spot that hold its strings. */
export const STRING_BITS = 4;

/**
 * What transitions need to know of the shapes of one event, in typed arrays: the inner loops of link.ts
 * read nothing else (timed-facts.ts adds what hangs on time). Rows are indexed by shape; a note's column by its index, below `MOST_NOTES`.
 */
export interface ShapeFacts {
  readonly count: number;
  /** Notes that sound together in every shape. */
  readonly notes: number;
  /** The lead: the note whose finger, the lowest that is down, guides the hand. Its finger's index in the shape, its string (of a double stop the higher one), its finger (0 open, 5 thumb). */
  readonly lead: Uint8Array;
  readonly leadString: Uint8Array;
  readonly leadFinger: Uint8Array;
  /** Class of the lead: see step.ts. */
  readonly class: Uint8Array;
  /** How many fingers are down. */
  readonly fingers: Uint8Array;
  /** Where each finger is: the strings it lies on, a bit each, above its place in half millimetres; 0 where it is up. */
  readonly spot: Int32Array;
  /** Says of two notes whether they are the same one under the same fingers; 0 where there is no note. */
  readonly note: Int32Array;
  /** 1 for a note on an open string. */
  readonly open: Uint8Array;
}

export function factsOf(shapes: readonly Shape[]): ShapeFacts {
  const count = shapes.length;
  const facts = {
    count,
    notes: shapes[0]?.ways.length ?? 0,
    lead: new Uint8Array(count),
    leadString: new Uint8Array(count),
    leadFinger: new Uint8Array(count),
    class: new Uint8Array(count),
    fingers: new Uint8Array(count),
    spot: new Int32Array(count * FINGER_SLOTS),
    note: new Int32Array(count * MOST_NOTES),
    open: new Uint8Array(count * MOST_NOTES),
  };
  for (const [s, shape] of shapes.entries()) {
    facts.fingers[s] = shape.fingers.length;
    const lead = leadOf(shape);
    facts.lead[s] = Math.max(0, lead);
    facts.leadString[s] =
      shape.ways.length > 1 ? Math.min(...shape.ways.map(({ string }) => string)) : (shape.ways[0]?.string ?? 0);
    facts.leadFinger[s] = lead < 0 ? 0 : fingerIndex(shape.fingers[lead]!.finger);
    facts.class[s] = classOf(facts.leadString[s]!, facts.leadFinger[s]!, shape.ways.length > 1);
    for (const placed of shape.fingers) {
      const strings = placed.strings.reduce((bits, string) => bits | (1 << string), 0);
      facts.spot[s * FINGER_SLOTS + slot(placed)] = (Math.round(placed.mm * 2) << STRING_BITS) | strings;
    }
    for (const [n, way] of shape.ways.entries()) {
      const at = s * MOST_NOTES + n;
      facts.note[at] = signature(way);
      facts.open[at] = way.kind === 'open' ? 1 : 0;
    }
  }
  return facts;
}

/** Index of the lowest finger that is down, the thumb counted last; -1 where none is. */
function leadOf({ fingers }: Shape): number {
  let lead = -1;
  for (const [i, { finger }] of fingers.entries()) {
    if (lead < 0 || fingerIndex(finger) < fingerIndex(fingers[lead]!.finger)) lead = i;
  }
  return lead;
}

function slot({ finger }: PlacedFinger): number {
  return finger === 'T' ? 0 : finger;
}

/** One number for string, kind, node, fingers and place (to half a millimetre) of a note; never 0. */
function signature({ string, kind, stop, touch }: Way): number {
  let packed = 1;
  packed = packed * 4 + string;
  packed = packed * 4 + MANNERS.indexOf(kind);
  packed = packed * 8 + (touch?.k ?? 0);
  packed = packed * 9 + (touch?.n ?? 0);
  packed = packed * 6 + (stop ? fingerIndex(stop.finger) : 0);
  packed = packed * 6 + (touch ? fingerIndex(touch.finger) : 0);
  packed = packed * 2048 + Math.round((stop?.mm ?? 0) * 2);
  // Below 2^29: 4 * 4 * 8 * 9 * 6 * 6 * 2048 is 85 million, and the leading 1 as much again.
  return packed;
}
