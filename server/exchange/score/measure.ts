import type Fraction from 'fraction.js';
import type { JumpWord } from '../../../grammar/marks';
import type { Meter } from '../../music/meter';
import type { Clef } from '../../scene/staff/clef';
import type { Chord } from './written-note';

/** Measures that a part may have where the format lets a few bytes ask for any number; far above any piece. */
export const MOST_MEASURES = 10_000;

/** One measure of one part, every note at its place in time. */
export interface Measure {
  /** As printed. */
  readonly label: string;
  /** Not counted: an upbeat, or a bar cut in two by a repeat sign. */
  readonly implicit: boolean;
  /** How far its notes and rests reach, in whole notes. */
  readonly length: Fraction;
  readonly chords: readonly Chord[];
  readonly graces: readonly Grace[];
  readonly directions: readonly (Directions & { readonly onset: Fraction })[];
  readonly meter?: Meter | 'free';
  readonly key?: string;
  readonly clef?: Clef;
  /** The clef that holds from the next bar on: it changes inside this one. */
  readonly clefAfter?: Clef;
  /** It and the next are printed as one rest of so many. */
  readonly restsTogether?: number;
  readonly repeatBefore: boolean;
  readonly repeatAfter: boolean;
  readonly doubleAfter: boolean;
  /** Times of the ending that begins with it, `1` or `1, 2`. */
  readonly ending?: string;
  /** An ending closes with it that no repeat sign closes. */
  readonly endingAfter?: true;
  readonly jumps?: readonly JumpWord[];
}

/** A grace note, which takes no time of its own; it stands before the chord of its voice at `onset`, or at the end of the measure. */
export interface Grace {
  readonly chord: Chord;
  readonly onset: Fraction;
}

/** What is printed over or under the staff, as a passage says it. */
export interface Directions {
  readonly instructions: readonly string[];
  /** Rehearsal marks. */
  readonly marks?: readonly string[];
  /** Dynamics, hairpins and ways of playing, in order: they stand before the note. */
  readonly words: readonly string[];
  readonly jumps?: readonly JumpWord[];
  /** The value of a `tempo:` line. */
  readonly tempo?: string;
  /** The value of a `tuning:` line, lowest string first. */
  readonly tuning?: string;
}
