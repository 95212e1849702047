import type { Dynamic, Finger } from '../../grammar/tree';
import { FRAME_SHARES } from '../hand/constants';
import type { Hand } from '../hand/hand';
import { opening, reachOf } from '../hand/reach';
import { deviation } from '../music/temperament';
import type { EventSpec, Setup } from '../passage/passage';
import { fromNats, NEVER } from './cost';
import { EFFORT } from './effort';
import { gapBetween, type PlacedFinger, type Shape } from './shape';
import { speechCost } from './speech';
import type { TermName } from './terms';
import type { Way } from './way';

/** Terms of one state, in the solver's whole numbers. */
export type Terms = Partial<Record<TermName, number>>;

/**
 * What a shape costs by itself, whatever comes before it and wherever the hand is: the stretch between
 * fingers that are down, the kind of harmonic, the loudness asked.
 */
export function shapeTerms(shape: Shape, spec: EventSpec, setup: Setup): Terms {
  const terms: Terms = {};
  const add = (name: TermName, nats: number) => {
    if (nats > 0) terms[name] = (terms[name] ?? 0) + fromNats(nats);
  };
  const spoken = shape.ways.reduce((sum, way) => sum + speechCost(way, spec, spec.seconds, setup), 0);
  if (spoken > 0) terms.placement = spoken;
  for (const way of shape.ways) addWay(way, shape, spec, setup, add);
  for (const [i, one] of shape.fingers.entries()) {
    for (const two of shape.fingers.slice(i + 1)) add('stretch', EFFORT.stretch * openingBetween(one, two, setup) ** 2);
    if (one.finger === 4 && one.stops && spec.seconds > EFFORT.weakFingerFrom) {
      add('weakFinger', Math.min(EFFORT.weakFingerMost, EFFORT.weakFinger * (spec.seconds - EFFORT.weakFingerFrom)));
    }
    add('height', (EFFORT.height * (one.mm - setup.instrument.length / 2)) / 100);
  }
  if (shape.barred) add('covering', EFFORT.covering);
  return terms;
}

function addWay(way: Way, shape: Shape, spec: EventSpec, setup: Setup, add: (name: TermName, nats: number) => void): void {
  if (way.kind === 'open') return;
  const thumb = way.stop?.finger === 'T';
  if (way.kind === 'stopped') {
    if (thumb) add('stopper', EFFORT.thumb);
    return;
  }
  const above = Math.max(0, way.partial - 4);
  add('soft', EFFORT.soft[spec.dynamic satisfies Dynamic] * above);
  add('delicacy', EFFORT.delicacy * above);
  if (way.kind === 'natural') add('pitch', EFFORT.pitch * (offTemperament(way, setup) / 15) ** 2);
  if (way.interval) {
    add('firmness', EFFORT.firmness[way.interval]);
    if (way.stop?.finger !== 1 && !thumb) add('stopper', EFFORT.stopper);
    if (isThird(way) && shape.ways.length === 1) add('loneThird', EFFORT.loneThird);
  }
}

/** True for a major or minor third harmonic: between two fingers only a third apart. */
export function isThird(way: Way): boolean {
  return way.interval === 'third' || way.interval === 'minor-third';
}

/** Cents by which a natural harmonic is off the pitch that the temperament asks. */
export function offTemperament(way: Way, setup: Setup): number {
  return way.cents - deviation(way.sounding, setup.temperament);
}

function openingBetween(one: PlacedFinger, two: PlacedFinger, setup: Setup): number {
  const gap = gapBetween(one, two, setup);
  return gap ? opening(gap.reach, gap.along, gap.across) : 0;
}

/**
 * What it costs a shape that the hand is at a place (mm of its first finger); NEVER where a finger can't
 * get to its spot from there. With the first finger down there is nothing to choose: see states.ts.
 */
export function placeCost(shape: Shape, handMm: number, setup: Setup): number {
  let cost = 0;
  for (const { finger, mm } of shape.fingers) {
    const nats = finger === 1 ? 0 : reachingOut(finger, mm - handMm, handMm, setup);
    if (nats === Number.POSITIVE_INFINITY) return NEVER;
    cost += fromNats(nats);
  }
  return cost;
}

function reachingOut(finger: Finger, along: number, handMm: number, setup: Setup): number {
  const { hand, instrument } = setup;
  if (finger === 'T') return thumbOut(hand, -along);
  const reach = reachOf(hand, 1, finger);
  if (!reach) return Number.POSITIVE_INFINITY;
  const open = opening(reach, along, 0);
  if (open === Number.POSITIVE_INFINITY) return open;
  const frame = (instrument.length - handMm) * FOURTH_SHARE;
  const own = Math.min(frame, reach.comfortable / FRAME_SHARES[finger as 2 | 3 | 4]) * FRAME_SHARES[finger as 2 | 3 | 4];
  return EFFORT.extension * ((along - own) / 10) ** 2 + EFFORT.farExtension * open ** 2;
}

/** A fourth as a share of the string above the first finger: the frame of the hand. */
const FOURTH_SHARE = 1 - 2 ** (-5 / 12);

function thumbOut(hand: Hand, along: number): number {
  const reach = reachOf(hand, 'T', 1);
  if (!reach) return Number.POSITIVE_INFINITY;
  const open = opening(reach, along, 0);
  return open === Number.POSITIVE_INFINITY ? open : EFFORT.farExtension * open ** 2;
}
