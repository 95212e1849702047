import type { Dynamic } from '../../grammar/tree';
import { BOW_SPEED, CONSTANTS, FAMILIES } from './constants';
import type { Family, InstrumentString } from './instrument';

/** A note under the bow: its string, what sounds of it (nut or stop to bridge, mm), and which partial. */
export interface BowedNote {
  readonly family: Family;
  readonly string: Pick<InstrumentString, 'tension' | 'density'>;
  readonly length: number;
  readonly partial: number;
}

/** Where to bow a note, mm from the bridge to the middle of the hair. */
export interface ContactPoint {
  readonly nearest: number;
  readonly best: number;
  readonly farthest: number;
  /** Here the partial has a node and can't sound; absent for a note that isn't a harmonic. */
  readonly dead?: number;
}

/** N. Nothing sounds well where `least` is above `most`. */
export interface ForceWindow {
  readonly least: number;
  /** Two thirds of the way up on a log scale, where notes also start cleanly (assumption); for a harmonic see `harmonicForce`. */
  readonly best: number;
  readonly most: number;
}

/** How to bow a harmonic, against a stopped note on the same string. */
export interface BowAdvice {
  readonly contact: ContactPoint;
  /** Where that is against the usual place. */
  readonly place: 'usual' | 'nearer' | 'bridge';
  readonly speed: 'faster' | 'same';
  /** Bow speed as a multiple of the stopped note's. */
  readonly speedRatio: number;
  readonly force: 'lighter' | 'same';
  readonly window: ForceWindow;
}

/**
 * Contact point as the string feels it: partial `n` moves like n strings of length/n, so bowing `distance` mm from
 * the bridge is bowing at n distance / length of each (model.md). 1 is the node, where the partial can't sound.
 */
export function effectiveShare(distance: number, length: number, partial: number): number {
  return (partial * distance) / length;
}

/** A range of contact points is so wide, as a ratio of its ends, and never narrower than the second even between bridge and node: nobody bows to the millimetre. */
const NARROWEST = 1.3;
const SHORTEST = 1.12;

/**
 * Where to bow: within the playable region for this string, note and loudness (Schelleng: where the usual forces lie between the
 * least and the most), limited to where players bow, and for a harmonic to well clear of its node. On the shortest loops the node
 * comes nearer to the bow rather than the bow nearer to the bridge than players ever go.
 */
export function contactPoint(note: BowedNote, dynamic: Dynamic = 'mf'): ContactPoint {
  const { length, partial, family } = note;
  const loop = length / partial;
  const { bow } = FAMILIES[family];
  const playable = playableRegion(note, BOW_SPEED[dynamic]);
  const near = partial > 1 ? CONSTANTS.harmonicNearest.value : CONSTANTS.usualNearest.value;
  const clear = loop * CONSTANTS.harmonicFarthest.value;
  let nearest = Math.max(bow.nearest, loop * near, playable.nearest);
  let farthest = Math.min(length * CONSTANTS.usualFarthest.value, playable.farthest, clear);
  if (farthest < nearest * NARROWEST) {
    nearest = Math.max(bow.nearest, farthest / NARROWEST);
    const reach = Math.min(nearest * NARROWEST, loop * CONSTANTS.farthestSpeaking.value);
    farthest = Math.min(Math.max(reach, nearest * SHORTEST), loop / SHORTEST);
    nearest = Math.min(nearest, farthest / SHORTEST);
  }
  const middle = Math.sqrt(nearest * farthest);
  // Loud tones are bowed in the nearer half, soft ones in the farther.
  if (dynamic === 'f' || dynamic === 'ff') farthest = middle;
  if (dynamic === 'p' || dynamic === 'pp') nearest = middle;
  return { nearest, best: Math.sqrt(nearest * farthest), farthest, ...(partial > 1 ? { dead: loop } : {}) };
}

/** Between which contact points, mm, the forces that players use lie between the least and the most. */
function playableRegion({ string, length, partial, family }: BowedNote, speed: number): { nearest: number; farthest: number } {
  const z = impedance(string);
  const friction = CONSTANTS.staticFriction.value - CONSTANTS.slidingFriction.value;
  const { bow, bridgeResistance } = FAMILIES[family];
  const least = Math.sqrt((z * z * speed) / (2 * bridgeResistance.value * friction * bow.force.most));
  const most = (2 * z * speed) / (friction * bow.force.least);
  return { nearest: (least * length) / partial, farthest: (most * length) / partial };
}

/** Between which contact points a harmonic still speaks, mm from the bridge: clear of the bridge, and of the partial's node. */
export function speakingContact(
  length: number,
  partial: number,
  family: Family,
): { readonly nearest: number; readonly farthest: number } {
  const loop = length / partial;
  return {
    nearest: Math.min(FAMILIES[family].bow.nearest, loop * CONSTANTS.nearestSpeaking.value),
    farthest: loop * CONSTANTS.farthestSpeaking.value,
  };
}

/** Wave impedance of a string, kg/s. */
export function impedance(string: Pick<InstrumentString, 'tension' | 'density'>): number {
  return Math.sqrt((string.tension * string.density) / 1000);
}

/**
 * The bow forces between which a note speaks as one steady tone, in N, for a bow `distance` mm from the bridge moving at
 * `speed` m/s (J. C. Schelleng, JASA 53, 1973): most = 2 Z v / (beta dmu), least = Z^2 v / (2 R beta^2 dmu). Later
 * measurements find the least force nearly independent of speed (Schoonderwaldt et al. 2008): say so wherever it is shown.
 */
export function forceWindow(note: BowedNote, distance: number, speed: number = CONSTANTS.bowSpeed.value): ForceWindow {
  const z = impedance(note.string);
  const share = effectiveShare(distance, note.length, note.partial);
  const friction = CONSTANTS.staticFriction.value - CONSTANTS.slidingFriction.value;
  const resistance = FAMILIES[note.family].bridgeResistance.value;
  const least = (z * z * speed) / (2 * resistance * share * share * friction);
  const most = (2 * z * speed) / (share * friction);
  const light = Math.max(least, most * CONSTANTS.harmonicForce.value);
  return { least, best: note.partial > 1 ? light : Math.cbrt(least * most * most), most };
}

/** Changes of speed and force smaller than this aren't worth a word. */
const WORTH_SAYING = 1.1;
/** Nobody bows a harmonic more than this many times faster. Assumption. */
const FASTEST = 2;
/** As shares of the usual distance: from here up it is the usual place, from here up a little nearer the bridge, below well toward it. */
const USUAL_FROM = 0.8;
const NEARER_FROM = 0.5;

/**
 * Bowing a harmonic as loud as a stopped note in first position on its string, `open` mm long: what reaches the bridge goes as
 * Z v / beta, so the bow speed must go as beta; forces are compared at the best of each window. Never slower nor firmer.
 */
export function bowAdvice(note: BowedNote, open: number, dynamic: Dynamic = 'mf'): BowAdvice {
  const contact = contactPoint(note, dynamic);
  const plain: BowedNote = { ...note, length: open, partial: 1 };
  const from = contactPoint(plain, dynamic);
  const speed = BOW_SPEED[dynamic];
  const louder = effectiveShare(contact.best, note.length, note.partial) / effectiveShare(from.best, open, 1);
  const speedRatio = Math.min(FASTEST, Math.max(1, louder));
  const window = forceWindow(note, contact.best, speed * speedRatio);
  const forceRatio = window.best / forceWindow(plain, from.best, speed).best;
  const nearer = contact.best / from.best;
  return {
    contact,
    place: nearer >= USUAL_FROM ? 'usual' : nearer >= NEARER_FROM ? 'nearer' : 'bridge',
    speed: speedRatio > WORTH_SAYING ? 'faster' : 'same',
    speedRatio,
    force: forceRatio < 1 / WORTH_SAYING ? 'lighter' : 'same',
    window,
  };
}
