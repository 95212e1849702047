import { shiftVariance } from '../hand/chance';
import { SHIFT_SHARE, SHORTEST_MOVE } from '../hand/constants';
import { semitone } from '../music/pitch';
import type { EventSpec, Setup } from '../passage/passage';
import { fromNats, NEVER } from './cost';
import { EFFORT } from './effort';
import { FINGER_SLOTS, MOST_NOTES, type ShapeFacts, STRING_BITS } from './facts';
import { habitCosts } from './habits';
import { missed, sharpness } from './landing';
import type { Layout } from './layout';
import type { StateSet } from './states';
import { tellDistance } from './step';
import type { TimedFacts } from './timed-facts';
import { highestOf } from './view';

/**
 * The primitive costs of going from one event to the next. The tables of link.ts and the terms shown
 * to players are both made of these, so they can't disagree. `a` and `b` are shapes by index.
 */

/** Seconds the hand has to move after an event: all of an open note or rest, a share of a fingered note. */
export function moveSeconds(spec: EventSpec, free: boolean): number {
  return Math.max(SHORTEST_MOVE, (free ? spec.seconds : SHIFT_SHARE * spec.seconds) + spec.rest);
}

/** What it costs that a shift goes so far; `free`: under an open string or a silence of the bow. */
export function distanceCost({ positions, setup }: Layout, from: number, to: number, free: boolean): number {
  const costs = habitCosts(setup);
  let known = distances.get(costs);
  if (!known) {
    known = new Map();
    distances.set(costs, known);
  }
  const far = 2 * shifted(positions, from, to) + Number(free);
  let cost = known.get(far);
  if (cost === undefined) {
    let sum = 0;
    tellDistance(shifted(positions, from, to), free, (habit) => {
      sum += costs[habit]!;
    });
    known.set(far, sum);
    cost = sum;
  }
  return cost;
}

/** By positions and whether the hand is free, for every player's habits. */
const distances = new WeakMap<Int32Array, Map<number, number>>();

/** Positions from one hand place to another: at least one where they are not the same. */
export function shifted(positions: Uint8Array, from: number, to: number): number {
  return from === to ? 0 : positions[to]! - positions[from]! || Math.sign(to - from);
}

/** What a move of the hand adds to the variance of where its fingers land, mm². */
export function landingAfter(distance: number, seconds: number, setup: Setup): number {
  return shiftVariance(setup.hand.skill, distance, seconds);
}

/** What it costs that the fingers of one note may not land, after a move that added `moved` to their variance. */
export function landingCost(facts: TimedFacts, b: number, note: number, moved: number): number {
  const at = b * MOST_NOTES + note;
  return (
    facts.spacing[at]! +
    Math.round(facts.care[at]! * missed(facts.tolerance[at]!, sharpness(Math.sqrt(facts.variance[at]! + moved))))
  );
}

/** Lifting one finger of a double stop and setting it elsewhere while the hand stays. */
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
  const one = to.note[b * MOST_NOTES + note]!;
  if (one === 0) return false;
  for (let n = 0; n < from.notes; n++) if (from.note[a * MOST_NOTES + n] === one) return true;
  return false;
}

/**
 * What forbids the step, or burdens it, whatever the hand's distance: held notes that must be the same, a
 * slide that must stay on its string and finger, and go the way of the melody. `still` says whether the hand stays.
 */
export function stepCost(
  { facts: from, spec: before }: Bound,
  a: number,
  { facts: to, spec }: Bound,
  b: number,
  still: boolean,
): number {
  for (let pair = 0; pair < spec.held.length; pair++) {
    const [there, here] = spec.held[pair]!;
    if (from.note[a * MOST_NOTES + there] !== to.note[b * MOST_NOTES + here]) return NEVER;
    if (!still && to.open[b * MOST_NOTES + here] === 0) return NEVER;
  }
  return spec.slide && !slides(from, a, to, b, rise(before, spec)) ? fromNats(EFFORT.brokenSlide) : 0;
}

type Bound = Pick<StateSet, 'facts' | 'spec'>;

/** Semitones that the melody rises, as it sounds; 0 where nothing tells. */
function rise(before: EventSpec, after: EventSpec): number {
  const [from, to] = [highestOf(before.notes), highestOf(after.notes)];
  return from && to ? semitone(to) - semitone(from) : 0;
}

/**
 * True when every finger down has come along its string, up it where the melody rises by so many semitones, down it where it falls: into a
 * harmonic that has a point on either side one slides on, never back. An open string alone can't be slid into.
 */
function slides(from: ShapeFacts, a: number, to: ShapeFacts, b: number, semitones: number): boolean {
  for (let finger = 0; finger < FINGER_SLOTS; finger++) {
    const there = from.spot[a * FINGER_SLOTS + finger]!;
    const here = to.spot[b * FINGER_SLOTS + finger]!;
    if (here === 0) continue;
    if ((there & here & ALL_STRINGS) === 0) return false;
    if (((here >> STRING_BITS) - (there >> STRING_BITS)) * semitones < 0) return false;
  }
  return to.fingers[b]! > 0;
}
