import type { Finger } from '../../grammar/tree';
import { NECK_END } from '../hand/constants';
import { THUMB_PLACE } from '../hand/places';
import { semitone } from '../music/pitch';
import type { EventSpec } from '../passage/passage';
import { FIRST } from './habits';
import type { Layout } from './layout';
import type { Shape } from './shape';
import { GROUPS, type Surroundings } from './surroundings';

/** Is told the habits that a choice is an example of, by their index in `HABITS`. */
export type Tell = (habit: number) => void;

/** Lengths of notes that habits tell apart, s: short, middling, long. */
export const LENGTHS = [0.25, 0.6] as const;
/** Finer, for open strings and shifts. */
export const TIMES = [0.13, 0.25, 0.5, 1] as const;

/** How many of the limits a value has reached. */
export function bucket(value: number, limits: readonly number[]): number {
  let index = 0;
  while (index < limits.length && value >= limits[index]!) index++;
  return index;
}

/** 0 for an open string, the finger's number, 5 for the thumb. */
export function fingerIndex(finger: Finger): number {
  return finger === 'T' ? 5 : finger;
}

/** What holds for every state of an event, worked out once: see `tellChoice`. */
export interface Heard {
  readonly length: number;
  readonly time: number;
  readonly around: Surroundings;
}

export function heardOf(spec: EventSpec, around: Surroundings): Heard {
  return { length: bucket(spec.seconds, LENGTHS), time: bucket(spec.seconds, TIMES), around };
}

/**
 * Tells the habits of one state by itself. Of a double stop, the lead's: the note whose finger guides the hand (see facts.ts).
 */
export function tellChoice(layout: Layout, state: number, { length, time, around }: Heard, tell: Tell): void {
  const shape = layout.shape[state]!;
  const { ways } = layout.shapes[shape]!;
  // A silence is no choice.
  if (ways.length === 0) return;
  const place = layout.place[state]!;
  const string = layout.facts.leadString[shape]!;
  const finger = layout.facts.leadFinger[shape]!;
  const position = layout.positions[place]!;
  tell(FIRST.position + (position <= 7 ? position : position <= 9 ? 8 : 9));
  const stopped = finger > 0;
  tell(FIRST.stringHeight + (stopped ? 1 + string * 4 + bucket(position, HEIGHTS) : 0));
  tell(FIRST.finger + (stopped ? 1 + (finger - 1) * 3 + length : 0));
  // Between first and fourth finger of a cellist's double stop the hand opens as far as the interval asks: its span counts (own.ts), not a habit.
  const bend = !layout.scaled && spansHand(layout.shapes[shape]!) ? 0 : layout.bend[state]!;
  tell(FIRST.bend + (stopped ? bendChoice(finger, bend) : 0));
  tell(FIRST.highPosition + (stopped ? 1 + (position >= 4 ? 1 + length : 0) : 0));
  if (ways.length > 1) tell(FIRST.doubleHeight + bucket(position, DOUBLE_HEIGHTS));
  if (!layout.scaled) {
    const register = bucket(place, REGISTERS);
    for (const { finger: one } of layout.shapes[shape]!.fingers) {
      const where = one === 'T' && inOctaveFrame(layout.shapes[shape]!, around) ? AT_HOME : register;
      tell(FIRST.register + 1 + (fingerIndex(one) - 1) * 3 + where);
    }
  }
  tell(FIRST.paceHeight + (finger > 0 ? 1 + around.pace * 4 + bucket(position, HEIGHTS) : 0));
  tell(FIRST.reach + (around.height > 1 ? 7 : 0) + 3 + Math.max(-3, Math.min(3, position - around.height)));
  if (around.highest) tell(FIRST.highest + finger);
  if (around.lowest) tell(FIRST.lowest + finger);
  if (layout.hasOpen) {
    const open = finger === 0;
    tell(FIRST.openLength + (open ? 1 + time : 0));
    tell(FIRST.openString + (open ? 1 + string : 0));
    const before = stepwise(around.from);
    const after = stepwise(around.to);
    if (before) tell(FIRST.openFrom + (open ? (before < 0 ? 1 : 2) : 0));
    if (after) tell(FIRST.openTo + (open ? (after < 0 ? 1 : 2) : 0));
    tell(FIRST.fourthFrom + (finger === 4 ? (before < 0 ? 1 : before > 0 ? 3 : 2) : 0));
    tell(FIRST.fourthTo + (finger === 4 ? (after < 0 ? 1 : after > 0 ? 3 : 2) : 0));
  }
  tell(FIRST.ahead + bucket(around.ahead[place]!, COUNTS));
  tell(FIRST.behind + bucket(around.behind[place]!, COUNTS));
  const there = string * layout.places.length + place;
  tell(FIRST.stringAhead + (stopped ? 1 + bucket(around.stringAhead[there]!, RUNS) : 0));
  tell(FIRST.stringBehind + (stopped ? 1 + bucket(around.stringBehind[there]!, RUNS) : 0));
  const base = layout.openSteps[string]! + (layout.scaled ? place : 0);
  for (let g = 0; g < GROUPS.length; g++) {
    const group = around.groups[g];
    if (!group || !layout.scaled) continue;
    tell(LYING[g]! + (stopped ? lying(group.low - base, group.high - base, layout.openSteps[string]! - base) : 0));
  }
  if (around.pedal !== undefined) tell(FIRST.pedal + (finger === 0 ? 1 : 0));
  if (around.besidePedal !== undefined) tell(FIRST.besidePedal + beside(finger, string - around.besidePedal));
}

const HEIGHTS = [3, 5, 8] as const;
const DOUBLE_HEIGHTS = [2, 3, 5] as const;
/** Hand places of the cello past the neck's end, and where the thumb is at home. */
const REGISTERS = [NECK_END, THUMB_PLACE - 1] as const;
/** The register where the thumb is at home. */
const AT_HOME = 2;
const COUNTS = [1, 2, 4, 8] as const;
const RUNS = [1, 2, 3, 5, 8] as const;
/** Steps of the scale that four fingers lie apart. */
const FRAME = 3;
const LYING = [FIRST.lyingNext, FIRST.lyingAround, FIRST.lyingBeat] as const;

function spansHand({ fingers }: Shape): boolean {
  return fingers.some(({ finger }) => finger === 1) && fingers.some(({ finger }) => finger === 4);
}

/**
 * True where a cellist's thumb holds the frame of an octave: under the octave itself, its two notes at once or one after the other, and
 * under an artificial harmonic. There thumb and third finger are the rule on the neck as past it. Common practice, no source.
 */
function inOctaveFrame({ ways }: Shape, { from, to }: Surroundings): boolean {
  if (ways.some(({ kind }) => kind === 'artificial')) return true;
  if (ways.length === 1) return to === OCTAVE || from === -OCTAVE;
  const pitches = ways.map(({ sounding }) => semitone(sounding));
  return Math.max(...pitches) - Math.min(...pitches) === OCTAVE;
}

const OCTAVE = 12;

/** Index in `FAMILIES.lyingNext` of notes from `low` to `high` on a string whose open note is `open`: steps of the scale from the hand's first finger. */
function lying(low: number, high: number, open: number): number {
  if (low < open) return 3;
  if (low < 0) return high > FRAME ? 6 : 4;
  if (high > FRAME) return 5;
  return low === 0 ? 2 : 1;
}

/** Strings below the pedal's (positive) to a choice of `besidePedal`. */
function beside(finger: number, below: number): number {
  if (finger === 0) return 4;
  return below >= 2 ? 0 : below === 1 ? 1 : below === 0 ? 2 : 3;
}

/** -1 or 1 for a step of one or two semitones, 0 for anything else. */
function stepwise(interval: number | undefined): number {
  return interval === undefined || interval === 0 || Math.abs(interval) > 2 ? 0 : Math.sign(interval);
}

/** Index in `FAMILIES.bend` of a finger (1 to 4, 5 for the thumb) out of the frame. */
function bendChoice(finger: number, bend: number): number {
  if (bend === 0 || finger > 4) return 1;
  return 2 + (finger - 1) * 4 + (bend <= -2 ? 0 : bend === -1 ? 1 : bend === 1 ? 2 : 3);
}
