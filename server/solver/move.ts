import { shiftVariance } from '../hand/chance';
import { SHIFT_SHARE, SHORTEST_MOVE } from '../hand/constants';
import type { EventSpec, Setup } from '../passage/passage';
import { fromNats, NEVER } from './cost';
import { EFFORT } from './effort';
import { FINGER_SLOTS, type ShapeFacts, STRING_BITS } from './facts';
import { missed, sharpness } from './landing';
import type { TimedFacts } from './timed-facts';

/**
 * The primitive costs of going from one event to the next. The tables of link.ts and the terms shown
 * to players are both made of these, so they can't disagree. `a` and `b` are shapes by index.
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

/** What a move of the hand adds to the variance of where its fingers land, mm². */
export function landingAfter(distance: number, seconds: number, setup: Setup): number {
  return shiftVariance(setup.hand.skill, distance, seconds);
}

/** Minus the log of the chance that the fingers of one note land, after a move that added `moved` to their variance. */
export function landingCost(facts: TimedFacts, b: number, note: number, moved: number): number {
  const at = b * 2 + note;
  return facts.spacing[at]! + missed(facts.tolerance[at]!, sharpness(Math.sqrt(facts.variance[at]! + moved)));
}

/** The bow's part, by how far it must lean over (in half strings): crossing, and passing over strings in between. */
export function bowCosts(halves: number, spec: EventSpec): { readonly crossing: number; readonly skip: number } {
  const apart = halves / 2;
  const speed = 1 / Math.max(SHORTEST_MOVE, spec.seconds + spec.rest);
  const each = EFFORT.crossing + EFFORT.crossingSpeed * speed + (spec.slurred ? EFFORT.crossingSlurred : 0);
  const over = Math.max(0, apart - 1);
  return { crossing: fromNats(each * apart), skip: fromNats(over * (spec.slurred ? EFFORT.skipSlurred : EFFORT.skip)) };
}

/** Lifting one finger and setting it elsewhere while the hand stays. */
export function hopCost(spec: EventSpec): number {
  return fromNats(EFFORT.hop + EFFORT.hopSpeed / Math.max(SHORTEST_MOVE, spec.seconds + spec.rest));
}

/**
 * How many fingers must hop while the hand stays: those that stand in both shapes, but not at the same
 * place of the same strings, and those that go past a finger of the shape before on its string. At most 7.
 */
export function hops(from: ShapeFacts, a: number, to: ShapeFacts, b: number): number {
  let count = 0;
  for (let finger = 0; finger < FINGER_SLOTS; finger++) {
    const here = to.spot[b * FINGER_SLOTS + finger]!;
    if (here === 0) continue;
    for (let other = 0; other < FINGER_SLOTS; other++) {
      const there = from.spot[a * FINGER_SLOTS + other]!;
      if (there === 0 || there === here) continue;
      if (other === finger ? !within(here, there) : climbs(here, there, finger > other)) count++;
    }
  }
  return Math.min(count, 7);
}

/** True when a finger goes to the wrong side of another on its string: a higher finger nutward of a lower one, or the other way round. */
function climbs(spot: number, other: number, higher: boolean): boolean {
  if ((spot & other & ALL_STRINGS) === 0) return false;
  const apart = (spot >> STRING_BITS) - (other >> STRING_BITS);
  return higher ? apart < -CLIMB : apart > CLIMB;
}

/** Half millimetres that fingers may stand the wrong way round without climbing. */
const CLIMB = 8;

/** True when one spot is part of another: the same place, on strings that the other covers. */
function within(spot: number, other: number): boolean {
  return spot >> STRING_BITS === other >> STRING_BITS && (spot & ~other & ALL_STRINGS) === 0;
}

const ALL_STRINGS = (1 << STRING_BITS) - 1;

/** True when a note of `b` is one of `a`'s under the same fingers, which can then stay. */
export function kept(from: ShapeFacts, a: number, to: ShapeFacts, b: number, note: number): boolean {
  const one = to.note[b * 2 + note]!;
  return one !== 0 && (from.note[a * 2] === one || from.note[a * 2 + 1] === one);
}

/** Where nothing is down after a fingered note, the hand waits; it moves during the open note itself. */
export function mustWait(from: ShapeFacts, a: number, to: ShapeFacts, b: number): boolean {
  return to.fingers[b] === 0 && from.fingers[a]! > 0;
}

/**
 * What forbids the step, or burdens it, whatever the hand's distance: held notes that must be the same, a
 * slide that must stay on its string and finger. `still` says whether the hand stays.
 */
export function stepCost(from: ShapeFacts, a: number, to: ShapeFacts, b: number, spec: EventSpec, still: boolean): number {
  for (let pair = 0; pair < spec.held.length; pair++) {
    const [there, here] = spec.held[pair]!;
    if (from.note[a * 2 + there] !== to.note[b * 2 + here]) return NEVER;
    if (!still && to.open[b * 2 + here] === 0) return NEVER;
  }
  return spec.slide && !slides(from, a, to, b) ? fromNats(EFFORT.brokenSlide) : 0;
}

/** True when every finger down has come along its string; an open string alone can't be slid into. */
function slides(from: ShapeFacts, a: number, to: ShapeFacts, b: number): boolean {
  for (let finger = 0; finger < FINGER_SLOTS; finger++) {
    const there = from.spot[a * FINGER_SLOTS + finger]!;
    const here = to.spot[b * FINGER_SLOTS + finger]!;
    if (here !== 0 && (there & here & ALL_STRINGS) === 0) return false;
  }
  return to.fingers[b]! > 0;
}
