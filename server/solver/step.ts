import type { EventSpec } from '../passage/passage';
import { bucket, LENGTHS, type Tell, TIMES } from './choice';
import { FIRST } from './habits';
import type { Surroundings } from './surroundings';

/**
 * What going from one event to the next is an example of, by the lead's string and finger before and after (a class) and by
 * whether the hand stays or moves: all that a step costs but the distance of the shift, the landing and the fingers of double stops.
 */

/** Fingers of a class: 0 open, 1 to 4, 5 the thumb. */
export const FINGERS = 6;
export const STRINGS = 4;
/** Classes there are: of four strings, I first; of single notes, then of double stops, which have the number of their higher string. */
export const CLASSES = 2 * STRINGS * FINGERS;

export function classOf(string: number, finger: number, double: boolean): number {
  return (Number(double) * STRINGS + string) * FINGERS + finger;
}

/** Where the hand goes. */
export const STAYS = 0;
export const UP = 1;
export const DOWN = 2;
export const MOVES = [STAYS, UP, DOWN] as const;
export type Move = (typeof MOVES)[number];

/** All that a step's habits ask of the two events besides their states. */
export interface Occasion {
  /** Of the event before: its length in two gradings, and the silence after it (0 none, 1 short, 2 long). */
  readonly length: number;
  readonly time: number;
  readonly rest: number;
  /** Of the event reached. */
  readonly beat: 0 | 1 | 2;
  readonly interval: number | undefined;
  readonly rises: number;
  readonly falls: number;
  readonly returns: boolean;
  readonly returning: boolean;
  /** One of three in a row on this pitch, and not in a figure of the bow. */
  readonly again: boolean;
  readonly pace: number;
  /** Both under one bow stroke. */
  readonly slurred: boolean;
  /** One of the two is the note of a figure that recurs, the other is not: 1, or 2 where its pitch is an open string's. */
  readonly recurring: 0 | 1 | 2;
}

interface To {
  readonly around: Surroundings;
  readonly hasOpen: boolean;
}

interface From extends To {
  readonly spec: EventSpec;
}

/** Silences that a shift can use, s. */
const RESTS = [0.12, 0.4] as const;
/** How far the melody goes on, semitones above or below. */
const ONWARD = [1, 5] as const;

export function occasionOf({ spec: before, around: earlier, hasOpen }: From, { around, hasOpen: opens }: To): Occasion {
  const length = bucket(before.seconds, LENGTHS);
  const time = bucket(before.seconds, TIMES);
  const rest = bucket(before.rest, RESTS);
  const interval = around.from === undefined ? undefined : Math.max(-13, Math.min(13, around.from));
  const { beat, returns, returning, pace } = around;
  const { slurred } = before;
  const recurring = around.recurs === earlier.recurs ? 0 : (around.recurs ? opens : hasOpen) ? 2 : 1;
  const again = (returns || around.to === 0) && !around.recurs && around.pedal === undefined && around.besidePedal === undefined;
  const rises = bucket(around.rises, ONWARD);
  const falls = bucket(around.falls, ONWARD);
  return { length, time, rest, beat, interval, rises, falls, returns, returning, again, pace, slurred, recurring };
}

/** False for a step that can't be: the hand waits until a fingered note has sounded before it moves under an open one. */
export function tellStep(occasion: Occasion, from: number, to: number, move: Move, tell: Tell): boolean {
  if (!canFollow(from, to, move)) return false;
  tellCrossing(occasion, overTo(from, to), tell);
  tellMove(occasion, from, move, tell);
  tellFingers(fingersHeard(occasion), from, to, move, tell);
  return true;
}

export function canFollow(from: number, to: number, move: Move): boolean {
  return move === STAYS || to % FINGERS !== 0 || from % FINGERS === 0;
}

/** What strings are crossed, `over` of them, upwards (towards the highest) positive. */
export function tellCrossing({ length, beat, pace, slurred, recurring }: Occasion, over: number, tell: Tell): void {
  const apart = Math.abs(over);
  tell(FIRST.crossing + (apart === 0 ? 0 : 1 + (apart - 1) * 3 + length));
  tell(FIRST.crossingBeat + (apart === 1 ? 1 + beat : 0));
  tell(FIRST.crossingWay + (apart === 0 ? 0 : over < 0 ? 1 : 2));
  tell(FIRST.crossingPace + (apart === 0 ? 0 : 1 + pace * 2 + (apart > 1 ? 1 : 0)));
  if (slurred) tell(FIRST.crossingSlurred + Math.min(2, apart));
  if (recurring) tell(FIRST.recurring + (apart > 0 ? 2 : 0) + recurring - 1);
}

/** When and why the hand moves, whatever fingers leave and arrive. */
export function tellMove(occasion: Occasion, from: number, move: Move, tell: Tell): void {
  const { length, time, rest, beat, rises, falls, returns, returning } = occasion;
  const free = from % FINGERS === 0;
  const shifts = move !== STAYS && !free;
  const up = move === UP ? 1 : 0;
  tell(FIRST.shiftTime + (shifts ? 1 + time : 0));
  tell(FIRST.shiftRest + (shifts ? rest : 0));
  tell(FIRST.shiftBeat + (shifts ? 1 + beat : 0));
  tell(FIRST.shiftMelody + (shifts ? 1 + up * 3 + (up ? rises : falls) : 0));
  tell(FIRST.shiftBack + (shifts ? Number(returns) + 2 * Number(returning) : 0));
  tell(FIRST.openShift + (move !== STAYS && free ? 1 + length : 0));
}

/** What the choice of fingers hangs on besides the fingers: few things, so that what they cost can be kept for each. */
export interface FingersHeard {
  /** Semitones, up or down; undefined after a break. */
  readonly wide: number | undefined;
  readonly again: boolean;
  readonly quick: 0 | 1;
}

export function fingersHeard({ interval, again, length }: Occasion): FingersHeard {
  return { wide: interval === undefined ? undefined : Math.abs(interval), again, quick: length === 0 ? 0 : 1 };
}

/** Which fingers leave and arrive, on which strings. */
export function tellFingers({ wide, again, quick }: FingersHeard, from: number, to: number, move: Move, tell: Tell): void {
  const [fingerBefore, finger] = [from % FINGERS, to % FINGERS];
  const over = overTo(from, to);
  const apart = Math.abs(over);
  // Which fingers of double stops hop is asked of all of them: see move.ts.
  const both = finger > 0 && fingerBefore > 0 && !isDouble(from) && !isDouble(to);
  if (wide === 0) tell(FIRST.repeat + (again ? 3 : 0) + (apart > 0 ? 2 : finger === fingerBefore ? 0 : 1));
  const stays = move === STAYS;
  const sameAlong = stays && both && finger === fingerBefore && apart === 0 && wide !== 0 && wide !== undefined;
  tell(FIRST.sameFinger + (sameAlong ? 1 + (wide === 1 ? 0 : 2) + quick : 0));
  const sameOver = stays && both && finger === fingerBefore && apart > 0;
  tell(FIRST.sameFingerOver + (sameOver ? 1 + (apart === 1 && wide === 7 ? 0 : 2) + quick : 0));
  tell(
    FIRST.fingersOver +
      (stays && both && apart === 1
        ? 1 +
          (3 + clipped(over > 0 ? inHand(finger) - inHand(fingerBefore) : inHand(fingerBefore) - inHand(finger))) * 4 +
          kind(wide)
        : 0),
  );
  tell(FIRST.fingersFar + (stays && both && apart >= 2 ? 1 + Math.min(3, Math.abs(finger - fingerBefore)) : 0));
  tell(FIRST.toOpen + (stays && fingerBefore > 0 && finger === 0 ? 1 + (fingerBefore - 1) * 2 + Number(apart === 0) : 0));
  tell(FIRST.fromOpen + (stays && fingerBefore === 0 && finger > 0 ? 1 + (finger - 1) * 2 + Number(apart === 0) : 0));
  const shifts = !stays && fingerBefore > 0;
  const up = move === UP ? 1 : 0;
  tell(
    FIRST.shiftFingers + (shifts ? 1 + (finger === fingerBefore ? 0 : inHand(finger) < inHand(fingerBefore) ? 2 : 4) + up : 0),
  );
  tell(FIRST.shiftTo + (shifts ? 1 + (finger - 1) * 2 + up : 0));
  const along = shifts && apart === 0 && wide !== undefined;
  tell(FIRST.shiftSame + (along && finger === fingerBefore ? 1 + Math.min(5, wide) : 0));
  tell(FIRST.shiftOther + (along && finger !== fingerBefore ? 1 + Math.min(5, wide) : 0));
  const across = wide === 12 ? 5 : 1 + (Math.min(2, apart) - 1) * 2 + Number(over > 0 === (move === UP));
  tell(FIRST.shiftOver + (shifts && apart > 0 ? across : 0));
  tell(FIRST.openShiftTo + (!stays && fingerBefore === 0 && finger > 0 ? finger : 0));
}

/** The thumb lies behind the first finger. */
function inHand(finger: number): number {
  return finger === 5 ? 0 : finger;
}

function isDouble(one: number): boolean {
  return one >= CLASSES / 2;
}

/** Strings from one class to another: see `between`. */
export function overTo(from: number, to: number): number {
  return OVER[from * CLASSES + to]!;
}

/** Strings to cross, upwards positive: none where the two have a string in common. */
function between(before: number, doubleBefore: boolean, after: number, double: boolean): number {
  const up = before - (after + Number(double));
  const down = after - (before + Number(doubleBefore));
  return up > 0 ? up : down > 0 ? -down : 0;
}

const OVER = Int8Array.from({ length: CLASSES * CLASSES }, (_, pair) => {
  const [from, to] = [Math.floor(pair / CLASSES), pair % CLASSES];
  const string = (one: number) => Math.floor(one / FINGERS) % STRINGS;
  return between(string(from), isDouble(from), string(to), isDouble(to));
});

function clipped(fingers: number): number {
  return Math.max(-3, Math.min(3, fingers));
}

/** Index of an interval among those of `fingersOver`. */
function kind(wide: number | undefined): number {
  return wide === 7 ? 1 : wide === 12 ? 2 : wide === 1 || wide === 2 ? 3 : 0;
}

/** Tells how far a shift goes. `free`: an open string sounds meanwhile. */
export function tellDistance(positions: number, free: boolean, tell: Tell): void {
  const far = bucket(Math.abs(positions), POSITIONS_FAR);
  const up = positions > 0 ? 1 : 0;
  tell(FIRST.shiftFar + (far > 0 && !free ? 1 + (far - 1) * 2 + up : 0));
  tell(FIRST.openShiftFar + (far > 0 && free ? far : 0));
}

const POSITIONS_FAR = [1, 2, 3, 5] as const;
