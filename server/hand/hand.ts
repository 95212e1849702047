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

/**
 * A finger as it stands in the hand: the hand's place, and by how many semitones the finger is out of the frame there (negative
 * towards the nut). In the frame of violin and viola every finger falls on a step of the key's scale, so which fingers lie
 * a whole and which a half step apart follows from key, string and position. The cellist's hand is that of
 * cello-frame.ts. Common practice, no source.
 */
export interface Standing {
  readonly place: number;
  readonly bend: number;
}
