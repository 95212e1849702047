import type { STRING_NAMES } from '../../grammar/hint-names';
import type { StringNumber } from '../../grammar/tree';
import type { Pitch } from '../music/pitch';

export type Family = 'violin' | 'viola' | 'cello';
export type StringName = (typeof STRING_NAMES)[number];

/** One open string, tuned. */
export interface InstrumentString {
  readonly number: StringNumber;
  readonly name: StringName;
  readonly pitch: Pitch;
  /** Frequency of the open string, Hz, as tuned (pure fifths or equal). */
  readonly hz: number;
  /** Stiffness coefficient B of the open string, no unit (f_n = n f_0 sqrt(1 + B n^2)). */
  readonly inharmonicity: number;
  /** Newtons. */
  readonly tension: number;
  /** Grams per metre. */
  readonly density: number;
  /** Resistance to stretching (Young's modulus times section, EA), newtons. */
  readonly axialStiffness: number;
}

export interface Instrument {
  readonly family: Family;
  /** As the player would say it: `violin`, `violin 3/4`, `viola 16in`, `violin 325mm`. */
  readonly name: string;
  /** Nut to bridge, mm. */
  readonly length: number;
  /** I first. */
  readonly strings: readonly InstrumentString[];
  /** Distance between neighbouring strings in the plane of the fingerboard, mm, at the nut and at the bridge. */
  readonly spacing: { readonly nut: number; readonly bridge: number };
  /** Height of the strings above the fingerboard, mm, at the nut and at the fingerboard's end. */
  readonly height: { readonly nut: number; readonly end: number };
  /** How far from the nut a string can still be pressed down, mm. */
  readonly fingerboard: number;
  /** True where the thumb may come up onto the string (cello). */
  readonly thumb: boolean;
}
