import { CONSTANTS, FAMILIES } from './constants';
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
  /** Two thirds of the way up on a log scale, where notes also start cleanly (assumption). */
  readonly best: number;
  readonly most: number;
}

/** How to bow a note, against the stopped note beside it. */
export interface BowAdvice {
  readonly contact: ContactPoint;
  /** mm to move from the other note's contact point; below 0 is nearer the bridge. */
  readonly move: number;
  readonly speed: 'faster' | 'slower' | 'same';
  /** Bow speed as a multiple of the other note's. */
  readonly speedRatio: number;
  readonly force: 'lighter' | 'firmer' | 'same';
  /** Bow force as a multiple of the other note's. */
  readonly forceRatio: number;
  readonly window: ForceWindow;
}

/**
 * Contact point as the string feels it: partial `n` moves like n strings of length/n, so bowing `distance` mm from
 * the bridge is bowing at n distance / length of each (model.md). 1 is the node, where the partial can't sound.
 */
export function effectiveShare(distance: number, length: number, partial: number): number {
  return (partial * distance) / length;
}

/** Where to bow, kept clear of the bridge and of the first node of the partial. */
export function contactPoint(note: BowedNote): ContactPoint {
  const loop = note.length / note.partial;
  // High partials of a short string want the bow nearer than it can go; a very short loop leaves only its middle.
  const least = Math.min(CONSTANTS.nearestBow.value, loop / 2);
  const place = (share: number): number => Math.max(loop * share, least);
  return {
    nearest: place(CONSTANTS.nearestShare.value),
    best: place(CONSTANTS.contactShare.value),
    farthest: place(CONSTANTS.farthestShare.value),
    ...(note.partial > 1 ? { dead: loop } : {}),
  };
}

/** Between which contact points a harmonic still speaks, mm from the bridge: clear of the bridge, and of the partial's node. */
export function speakingContact(length: number, partial: number): { readonly nearest: number; readonly farthest: number } {
  const loop = length / partial;
  return {
    nearest: Math.min(CONSTANTS.nearestBow.value, loop * CONSTANTS.nearestSpeaking.value),
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
  return { least, best: Math.cbrt(least * most * most), most };
}

/** Changes of speed and force smaller than this aren't worth a word. */
const WORTH_SAYING = 1.1;

/**
 * Bowing a note right after (or before) another, equally loud: what reaches the bridge goes as Z v / beta, so the bow
 * speed must go as beta / Z; forces are compared at the best of each window. Without a stopped
 * neighbour, compare with the open string. `speed` is that of the other note, m/s.
 */
export function bowAdvice(note: BowedNote, beside: BowedNote, speed: number = CONSTANTS.bowSpeed.value): BowAdvice {
  const contact = contactPoint(note);
  const from = contactPoint(beside);
  const loudness = (of: BowedNote, distance: number): number =>
    impedance(of.string) / effectiveShare(distance, of.length, of.partial);
  const speedRatio = loudness(beside, from.best) / loudness(note, contact.best);
  const window = forceWindow(note, contact.best, speed * speedRatio);
  const forceRatio = window.best / forceWindow(beside, from.best, speed).best;
  return {
    contact,
    move: contact.best - from.best,
    speed: speedRatio > WORTH_SAYING ? 'faster' : speedRatio < 1 / WORTH_SAYING ? 'slower' : 'same',
    speedRatio,
    force: forceRatio > WORTH_SAYING ? 'firmer' : forceRatio < 1 / WORTH_SAYING ? 'lighter' : 'same',
    forceRatio,
    window,
  };
}
