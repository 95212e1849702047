import Fraction from 'fraction.js';
import * as music from '../../music/note-values';

/** MusicXML's names of note values, as fractions of a whole note, longest first. */
export const NOTE_VALUES: Readonly<Record<string, readonly [number, number]>> = {
  maxima: [8, 1],
  long: [4, 1],
  breve: [2, 1],
  whole: [1, 1],
  half: [1, 2],
  quarter: [1, 4],
  eighth: [1, 8],
  '16th': [1, 16],
  '32nd': [1, 32],
  '64th': [1, 64],
  '128th': [1, 128],
  '256th': [1, 256],
  '512th': [1, 512],
  '1024th': [1, 1024],
};

const SIGNS = { longest: new Fraction(8), shortest: new Fraction(1, 1024) };

/** The note values that tied together last `duration` of a whole note. */
export function writtenValues(duration: Fraction): readonly music.NoteValue[] {
  return music.noteValues(duration, SIGNS);
}

const NAMES = new Map(Object.entries(NOTE_VALUES).map(([name, [n, d]]) => [n / d, name]));

/** MusicXML's name; undefined where no note value is as short. */
export function typeOf({ sign }: music.NoteValue): string | undefined {
  return sign && NAMES.get(sign.valueOf());
}

/** Flags or beams of a note: 0 for a quarter and longer, 1 for an eighth. */
export function flagsOf({ sign }: music.NoteValue): number {
  return sign ? Math.max(0, Math.round(-2 - Math.log2(sign.valueOf()))) : 0;
}

/** The one note value of this length, without a tuplet; undefined where there is none. */
export function plainValue(duration: Fraction): music.NoteValue | undefined {
  const [value, ...others] = writtenValues(duration);
  return value?.sign && !value.tuplet && others.length === 0 ? value : undefined;
}
