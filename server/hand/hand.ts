import type { Experience } from './attempts';
import type { Skill } from './skill';

/** Reach between two fingers on the string, mm: the least they can close to, the most that stays comfortable, the most there is. */
export interface Reach {
  readonly least: number;
  readonly comfortable: number;
  readonly most: number;
}

export type FingerPair = '1-2' | '1-3' | '1-4' | '2-3' | '2-4' | '3-4' | 'T-1' | 'T-2' | 'T-3';

/** A left hand. The thumb pairs are there only where the instrument lets the thumb onto the string. */
export interface Hand {
  /** `small`, `medium`, `large`, or `measured`. */
  readonly name: string;
  readonly reaches: Readonly<Partial<Record<FingerPair, Reach>>>;
  readonly skill: Skill;
  /** What the player has tried on the own instrument, and how it went. */
  readonly experience?: Experience;
}
