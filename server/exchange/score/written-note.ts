import type Fraction from 'fraction.js';
import type { Finger, StringNumber } from '../../../grammar/tree';
import type { Pitch } from '../../music/pitch';

/** One note head of a score with what is printed about it, transposed to what sounds (or, of a diamond, to where it is touched). */
export interface WrittenNote {
  readonly pitch: Pitch;
  readonly diamond: boolean;
  /** In brackets, small, or a cue: not a note of its own in a chord that holds a harmonic. */
  readonly aside: boolean;
  /** The harmonic mark, empty where it says no more than that. */
  readonly harmonic?: { readonly kind?: 'natural' | 'artificial'; readonly names?: 'base' | 'touch' | 'sound' };
  readonly tied: boolean;
  readonly string?: StringNumber;
  readonly fingers: readonly Finger[];
  readonly openMark: boolean;
  /** Hints of the passage language that stand in the score word for word. */
  readonly hints: readonly string[];
}

/** A note head with nothing printed about it. */
export function plainNote(pitch: Pitch, tied: boolean): WrittenNote {
  return { pitch, diamond: false, aside: false, tied, fingers: [], openMark: false, hints: [] };
}

/** Notes of one voice that begin together; none for a rest. */
export interface Chord {
  readonly measure: string;
  readonly voice: string;
  /** From the start of the measure, in whole notes. */
  readonly onset: Fraction;
  readonly duration: Fraction;
  readonly notes: readonly WrittenNote[];
  readonly marks: ChordMarks;
  /** A grace note: the value it is printed as. */
  readonly grace?: Fraction;
}

/** What belongs to a chord as a whole: one bow draws it. */
export interface ChordMarks {
  readonly slurStarts: readonly string[];
  readonly slurStops: readonly string[];
  readonly bow?: 'up' | 'down';
  readonly slide: boolean;
  /** Words of the passage for what is printed over it, in the order of the language's table. */
  readonly printed: readonly string[];
  /** Of a measured tremolo: strokes through the stem. */
  readonly strokes?: number;
  /** An end of a tremolo between two notes, which has the strokes of a measured one. */
  readonly byTurns?: 'start' | 'stop';
}

/** Nothing is printed about it. */
export const NO_MARKS: ChordMarks = { slurStarts: [], slurStops: [], slide: false, printed: [] };
