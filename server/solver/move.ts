import { landingError, missCost, spacingError } from '../hand/chance';
import { SHIFT_SHARE, SHORTEST_MOVE } from '../hand/constants';
import type { EventSpec, Setup } from '../passage/passage';
import { fromNats, NEVER } from './cost';
import { EFFORT } from './effort';
import type { Terms } from './own';
import type { Landing, Shape } from './shape';
import type { Way } from './way';

/**
 * The primitive costs of going from one event to the next. The tables of link.ts and the terms shown
 * to players are both made of these, so they can't disagree.
 */

/** Seconds the hand has to move after an event: all of an open note or rest, a share of a fingered note. */
export function moveSeconds(spec: EventSpec, free: boolean): number {
  return Math.max(SHORTEST_MOVE, (free ? spec.seconds : SHIFT_SHARE * spec.seconds) + spec.rest);
}

/** Effort of moving the hand `distance` mm in `seconds`. */
export function shiftCost(distance: number, seconds: number): number {
  if (distance === 0) return 0;
  const speed = distance / 1000 / seconds;
  return fromNats(EFFORT.shift + (EFFORT.shiftFar * distance) / 100 + EFFORT.shiftSpeed * speed * speed);
}

/** Minus the log of the chance that the fingers of one note land, the hand having moved `distance` mm in `seconds`. */
export function landingCost(landings: readonly Landing[], distance: number, seconds: number, setup: Setup): number {
  let nats = 0;
  for (const { tolerance, spacing } of landings) {
    nats += missCost(tolerance, spacing ? spacingError(setup.hand) : landingError(setup.hand, distance, seconds));
  }
  return fromNats(nats);
}

/** The bow's part: crossings and skips from the strings of one shape to those of the next. */
export function bowTerms(from: Shape, to: Shape, spec: EventSpec): Terms {
  const apart = Math.abs(from.level - to.level);
  if (apart === 0) return NOTHING;
  const speed = 1 / Math.max(SHORTEST_MOVE, spec.seconds + spec.rest);
  const each = EFFORT.crossing + EFFORT.crossingSpeed * speed + (spec.slurred ? EFFORT.crossingSlurred : 0);
  const over = Math.max(0, apart - 1);
  return {
    crossing: fromNats(each * apart),
    ...(over > 0 && { skip: fromNats(over * (spec.slurred ? EFFORT.skipSlurred : EFFORT.skip)) }),
  };
}

const NOTHING: Terms = {};

/** The same finger set down elsewhere while the hand stays: one hop for every such finger. */
export function hopCost(from: Shape, to: Shape, spec: EventSpec): number {
  let hops = 0;
  for (const finger of to.fingers) {
    const before = from.fingers.find((other) => other.finger === finger.finger);
    if (
      before &&
      !(Math.abs(before.mm - finger.mm) < SAME_PLACE && finger.strings.every((string) => before.strings.includes(string)))
    )
      hops++;
  }
  return hops === 0 ? 0 : fromNats(hops * (EFFORT.hop + EFFORT.hopSpeed / Math.max(SHORTEST_MOVE, spec.seconds + spec.rest)));
}

/** Two places closer than this are one place, mm. */
const SAME_PLACE = 0.5;

/** True when two ways are the same note under the same fingers, so the finger that is down can stay. */
export function sameWay(a: Way, b: Way): boolean {
  return (
    a.string === b.string &&
    a.kind === b.kind &&
    a.partial === b.partial &&
    a.stop?.finger === b.stop?.finger &&
    a.touch?.finger === b.touch?.finger &&
    Math.abs((a.stop?.mm ?? 0) - (b.stop?.mm ?? 0)) < SAME_PLACE &&
    Math.abs((a.touch?.mm ?? 0) - (b.touch?.mm ?? 0)) < SAME_PLACE
  );
}

/** For each note of `to`, whether its fingers are down already (the hand not having moved). */
export function stays(from: Shape, to: Shape): readonly boolean[] {
  return to.ways.map((way) => from.ways.some((before) => sameWay(before, way)));
}

/**
 * What forbids or burdens the step whatever the hand does: held notes that must be the same, a slide
 * that must stay on its string and finger. `still` says whether the hand stays.
 */
export function stepCost(from: Shape, to: Shape, spec: EventSpec, still: boolean): number {
  // Where nothing is down after a fingered note, the hand waits; it moves during the open note itself.
  if (!still && to.fingers.length === 0 && from.fingers.length > 0) return NEVER;
  for (const [there, here] of spec.held) {
    const before = from.ways[there];
    const now = to.ways[here];
    if (!before || !now || !sameWay(before, now)) return NEVER;
    if (!still && now.kind !== 'open') return NEVER;
  }
  return spec.slide && !slides(from, to) ? fromNats(EFFORT.brokenSlide) : 0;
}

function slides(from: Shape, to: Shape): boolean {
  return to.fingers.every((finger) =>
    from.fingers.some(
      (other) => other.finger === finger.finger && finger.strings.some((string) => other.strings.includes(string)),
    ),
  );
}
