import type { Finger } from '../../grammar/tree';
import { COVERING_SLACK, DOUBLE_STOP_SHARE } from '../hand/constants';
import type { FingerPair, Reach } from '../hand/hand';
import { apart, opening, pairOf, reachOf, tooClose } from '../hand/reach';
import { centsPerMm } from '../instrument/places';
import type { Pitch } from '../music/pitch';
import type { Setup } from '../passage/passage';
import type { Landing } from './landing';
import type { Way } from './way';

/**
 * All notes of one event with their fingers, before it is settled where the hand is. What the page
 * shows is the shape; one shape may be taken from more than one hand place.
 */
export interface Shape {
  readonly ways: readonly Way[];
  readonly fingers: readonly PlacedFinger[];
  /** The fingers that are down together: all of them, or those of each half of a chord that is set in two. */
  readonly hands: readonly SetHand[];
  /** One finger covers two neighbouring strings. */
  readonly barred: boolean;
  /** For each note, what its fingers must hit. */
  readonly landings: readonly (readonly Landing[])[];
}

export interface SetHand {
  /** So many of the notes that follow those before. */
  readonly notes: number;
  readonly fingers: readonly PlacedFinger[];
}

export interface PlacedFinger {
  readonly finger: Finger;
  /** From the nut. */
  readonly mm: number;
  /** String indices, one or (barred) two, and on each the pitch of a note stopped there. */
  readonly strings: readonly number[];
  readonly pitches: readonly Pitch[];
  readonly stops: boolean;
}

/** What stands in the way of a shape; the first three can be told to a player as they are. */
export type Obstacle =
  | { readonly kind: 'same-string' }
  | { readonly kind: 'not-neighbours' }
  | { readonly kind: 'stretch'; readonly fingers: readonly [string, string]; readonly asked: number; readonly reach: number }
  | { readonly kind: 'fingers' };

/**
 * The shape of these ways sounding together, or what stands in its way. The reach between fingers that
 * are down is asked here; that from the hand's place to a lone finger when the place is chosen. `notes` is how many sound
 * together in all, where these are only some of them. All fingers of a chord are set before the bow breaks it, but those of a
 * chord `parted` after so many notes: there the others follow while the bow goes over to them, under the same hand.
 */
export function shapeOf(ways: readonly Way[], setup: Setup, notes = ways.length, parted?: number): Shape | Obstacle {
  for (let i = 1; i < ways.length; i++) {
    for (let j = 0; j < i; j++) {
      const apart = stringsObstacle(ways[j]!, ways[i]!, notes);
      if (apart) return apart;
    }
  }
  const hands: SetHand[] = [];
  for (const half of parted === undefined ? [ways] : [ways.slice(0, parted), ways.slice(parted)]) {
    const fingers = place(half);
    if (!fingers) return FINGERS_CLASH;
    const obstacle = reachObstacle(fingers, setup);
    if (obstacle) return obstacle;
    hands.push({ notes: half.length, fingers });
  }
  const fingers = hands.flatMap((hand) => hand.fingers);
  const open = Math.max(...hands.map((hand) => openingOf(hand.fingers, setup)));
  return {
    ways,
    fingers,
    hands,
    barred: fingers.some((finger) => finger.strings.length > 1),
    landings: ways.map((way) => landingsOf(way, setup.instrument.length, open, ways.length > 1)),
  };
}

/** What stands in the way of two ways among so many notes, by their strings alone. */
function stringsObstacle(one: Way, two: Way, notes: number): Obstacle | undefined {
  if (one.string === two.string) return SAME_STRING;
  return Math.abs(one.string - two.string) >= notes ? NOT_NEIGHBOURS : undefined;
}

const SAME_STRING: Obstacle = { kind: 'same-string' };
const NOT_NEIGHBOURS: Obstacle = { kind: 'not-neighbours' };
const FINGERS_CLASH: Obstacle = { kind: 'fingers' };

export function isShape(made: Shape | Obstacle): made is Shape {
  return 'ways' in made;
}

/** Puts the fingers down; undefined where one finger would have to be in two places, play two roles or silence a string between. */
function place(ways: readonly Way[]): PlacedFinger[] | undefined {
  const placed: PlacedFinger[] = [];
  for (const way of ways) {
    if (way.stop && !put(placed, way.string, way.stop, true)) return undefined;
    if (way.touch && !put(placed, way.string, way.touch, false)) return undefined;
  }
  return placed.some((one) => damps(one, ways)) ? undefined : placed;
}

/** Puts one finger down beside others, or over one more string; false where it would be in two places or play two roles. */
function put(placed: PlacedFinger[], string: number, at: NonNullable<Way['stop']>, stops: boolean): boolean {
  const twin = placed.findIndex((other) => other.finger === at.finger);
  if (twin < 0) {
    placed.push({ finger: at.finger, mm: at.mm, strings: [string], pitches: [at.pitch], stops });
    return true;
  }
  const other = placed[twin]!;
  if (other.stops !== stops || Math.abs(other.mm - at.mm) > COVERING_SLACK) return false;
  const mm = (other.mm + at.mm) / 2;
  placed[twin] = { ...other, mm, strings: [...other.strings, string], pitches: [...other.pitches, at.pitch] };
  return true;
}

/** What stands in the way of one more way beside others, as far as it is seen at a glance: most are refused so, before anything is made of them. */
export function refusal(others: readonly Way[], way: Way, notes: number): Obstacle | undefined {
  for (const other of others) {
    const apart = stringsObstacle(other, way, notes);
    if (apart) return apart;
    if (fingersClash(other, way)) return FINGERS_CLASH;
  }
  return undefined;
}

/** True where one finger would have to be in two places or play two roles. */
function fingersClash(one: Way, two: Way): boolean {
  return (
    clashes(one.stop, true, two.stop, true) ||
    clashes(one.stop, true, two.touch, false) ||
    clashes(one.touch, false, two.stop, true) ||
    clashes(one.touch, false, two.touch, false)
  );
}

function clashes(a: Way['stop'], aStops: boolean, b: Way['stop'], bStops: boolean): boolean {
  // A finger over three strings lies in the middle of them.
  return a !== undefined && b?.finger === a.finger && (aStops !== bStops || Math.abs(a.mm - b.mm) > 2 * COVERING_SLACK);
}

/** True where a finger that lies over strings would also stop one between them that must sound lower. */
function damps({ strings, mm }: PlacedFinger, ways: readonly Way[]): boolean {
  const [low, high] = [Math.min(...strings), Math.max(...strings)];
  return (
    high - low > 1 &&
    ways.some(
      ({ string, stop }) => string > low && string < high && !strings.includes(string) && (stop?.mm ?? 0) < mm - COVERING_SLACK,
    )
  );
}

function reachObstacle(fingers: readonly PlacedFinger[], setup: Setup): Obstacle | undefined {
  for (const [i, one] of fingers.entries()) {
    for (const two of fingers.slice(i + 1)) {
      const gap = gapBetween(one, two, setup);
      if (!gap || tooClose(gap.reach, gap.along, gap.across)) return FINGERS_CLASH;
      const { pair, reach, along, across } = gap;
      const asked = apart(along, across);
      if (asked > reach.most) {
        const [low, high] = pair.split('-') as [string, string];
        return { kind: 'stretch', fingers: [low, high], asked, reach: reach.most };
      }
    }
  }
  return undefined;
}

/** Two fingers as the hand sees them: their reach, mm along the string from the lower finger to the higher, and mm across. */
export interface Gap {
  readonly pair: FingerPair;
  readonly reach: Reach;
  readonly along: number;
  readonly across: number;
}

/** Undefined for fingers that have no reach between them on this instrument. */
export function gapBetween(one: PlacedFinger, two: PlacedFinger, setup: Setup): Gap | undefined {
  const named = pairOf(one.finger, two.finger);
  const reach = reachOf(setup.hand, one.finger, two.finger);
  if (!named || !reach) return undefined;
  const along = named.swapped ? one.mm - two.mm : two.mm - one.mm;
  return { pair: named.pair, reach, along, across: stringDistance(one, two, setup) };
}

/** Distance across the fingerboard between the nearest strings of two fingers, mm. */
function stringDistance(one: PlacedFinger, two: PlacedFinger, setup: Setup): number {
  let apart = Number.POSITIVE_INFINITY;
  for (const a of one.strings) for (const b of two.strings) apart = Math.min(apart, Math.abs(a - b));
  if (apart === 0) return 0;
  const { spacing, length } = setup.instrument;
  const share = (one.mm + two.mm) / 2 / length;
  return apart * (spacing.nut + (spacing.bridge - spacing.nut) * share);
}

/** How far the hand is opened past comfortable between any two fingers that are down, 0 to 1. */
function openingOf(fingers: readonly PlacedFinger[], setup: Setup): number {
  let most = 0;
  for (const [i, one] of fingers.entries()) {
    for (const two of fingers.slice(i + 1)) {
      const gap = gapBetween(one, two, setup);
      if (gap) most = Math.max(most, opening(gap.reach, gap.along, gap.across));
    }
  }
  return most;
}

/** What the fingers of a way must hit, on a string of `length` mm. */
export function landingsOf(way: Way, length: number, open = 0, doubled = false): readonly Landing[] {
  const landings: Landing[] = [];
  const { stop, touch } = way;
  if (stop) {
    const perCent = 1 / centsPerMm(way.length);
    landings.push({ kind: 'stop', room: perCent * (doubled ? DOUBLE_STOP_SHARE : 1), perCent, open });
  }
  if (touch) {
    const perCent = 1 / centsPerMm(length - touch.mm);
    landings.push({ kind: stop ? 'spacing' : 'touch', room: way.tolerance ?? 0, perCent, open });
  }
  return landings;
}
