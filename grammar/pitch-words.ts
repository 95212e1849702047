import type { IToken } from 'chevrotain';
import { type Cure, oneOf, problem, quoted, type Report, write } from './problems';
import type { KeyName, Letter, PitchNode, Span } from './tree';

const ACCIDENTALS: Readonly<Record<string, number>> = {
  '': 0,
  '#': 1,
  '##': 2,
  b: -1,
  bb: -2,
  '♯': 1,
  '♯♯': 2,
  '♭': -1,
  '♭♭': -2,
  '𝄪': 2,
  '𝄫': -2,
};
/** Endings of note names in other languages of the trade: Fis, Ces, As. They are proposed, never read. */
const ENDINGS: Readonly<Record<string, number>> = { is: 1, isis: 2, es: -1, eses: -2, s: -1 };
const KEY_NAME = /^([A-G])(##?|bb?|♯♯?|♭♭?|𝄪|𝄫|)$/;
const LIKE_PITCH = /^([A-Ha-h])(isis|is|eses|es|s|(?:[#b♯♭x♮]|𝄪|𝄫)*?)([0-9]*)([oO°º]?)$/;
/** Where the violin's harmonics live; the octave to propose when nothing else tells one. */
const USUAL_OCTAVE = 5;

export function spanOf(token: IToken): Span {
  return { start: token.startOffset, end: token.startOffset + token.image.length };
}

/** Reads a `Pitch` token; the circle, if any, stands outside the pitch's span. */
export function readPitch(token: IToken): { pitch: PitchNode; circle?: Span } {
  const { image, startOffset: start } = token;
  const last = image.charCodeAt(image.length - 1);
  const circled = last < 0x30 || last > 0x39;
  const end = start + image.length - (circled ? 1 : 0);
  const digit = image.length - (circled ? 2 : 1);
  const pitch: PitchNode = {
    start,
    end,
    letter: image[0] as Letter,
    alter: ACCIDENTALS[image.slice(1, digit)] ?? 0,
    octave: image.charCodeAt(digit) - 0x30,
  };
  return circled ? { pitch, circle: { start: end, end: end + 1 } } : { pitch };
}

/** `D`, `F#`, `Bb`: a pitch name without octave. */
export function readKeyName(token: IToken): KeyName | undefined {
  const match = KEY_NAME.exec(token.image);
  return match ? { ...spanOf(token), letter: match[1] as Letter, alter: ACCIDENTALS[match[2] as string] ?? 0 } : undefined;
}

/** Reports what keeps a `LikePitch` token from being a pitch. `octave` is that of the pitch before it on the line. */
export function reportLikePitch(token: IToken, octave: number | undefined, report: Report): void {
  const [, letter = '', accidental = '', digits = '', circle = ''] = LIKE_PITCH.exec(token.image) ?? [];
  const tail = circle === '' ? '' : 'o';
  const name = letter.toUpperCase() === 'H' ? 'B' : letter.toUpperCase();
  const alter = mended(accidental);
  const place = spanOf(token);
  const pitches = (octaves: readonly number[]): Cure[] => octaves.map((n) => write(`${name}${alter}${n}${tail}`));

  if (digits === '') {
    const near = octave ?? USUAL_OCTAVE;
    const choices = [near, near + 1, near - 1].filter((n) => n >= 0 && n <= 9);
    report(
      problem(
        'octave-missing',
        place,
        `${quoted(token.image)} names no octave, so it could be any of several notes. Add its number: A4 is the tuning A, middle C is C4.`,
        pitches(choices),
      ),
    );
  } else if (digits.length > 1) {
    // D60 is a slip for D6o more often than anything else.
    const first = Number(digits[0]);
    const cures = digits.length === 2 && digits[1] === '0' ? [write(`${name}${alter}${first}o`)] : pitches([first]);
    report(
      problem(
        'octave-range',
        place,
        `There is no octave ${digits.length > 6 ? 'that high' : digits}: octaves are numbered 0 to 9 and A4 is the tuning A. A harmonic is marked with the letter o, not a zero.`,
        cures,
      ),
    );
  } else if (accidental !== '' && !(accidental in ACCIDENTALS)) {
    report(
      problem(
        'accidental',
        place,
        `${quoted(accidental)} is no accidental of this language. Write # or ## for sharps, b or bb for flats, and nothing for a natural.`,
        pitches([Number(digits)]),
      ),
    );
  } else if (name !== letter) {
    const why =
      letter.toUpperCase() === 'H'
        ? 'Notes are named A to G; the note below C is B, a semitone lower it is Bb.'
        : 'Notes are named with capital letters, because small ones mean other things (b is a flat, f is loud).';
    const cures = letter === 'b' ? [...pitches([Number(digits)])] : pitches([Number(digits)]);
    report(problem('pitch-letter', place, `${quoted(token.image)} is no pitch. ${why}`, cures));
  } else {
    report(
      problem(
        'circle-misplaced',
        place,
        `${quoted(token.image)} is not read as a harmonic: the circle is a small letter o or the sign °.`,
        pitches([Number(digits)]),
      ),
    );
  }
}

/** The accidental that a misspelled one was meant as. */
function mended(accidental: string): string {
  let alter = ENDINGS[accidental] ?? 0;
  if (!(accidental in ENDINGS)) for (const sign of accidental) alter += sign === 'x' ? 2 : (ACCIDENTALS[sign] ?? 0);
  alter = Math.max(-2, Math.min(2, alter));
  return alter >= 0 ? '#'.repeat(alter) : 'b'.repeat(-alter);
}

const INTERVALS = ['m2', 'M2', 'm3', 'M3', 'P4', 'A4', 'd5', 'P5', 'm6', 'M6', 'm7', 'M7', 'P8'] as const;
const INTERVAL = /^(?:P[1458]|[mM][2367]|A[1-8]|d[2-8])$/;

export function isInterval(word: string): boolean {
  return INTERVAL.test(word);
}

/** The intervals a word may have been meant as: `3` is a third of either kind, `p5` the fifth. */
export function likelyIntervals(word: string): Cure[] {
  const size = /[2-8]/.exec(word)?.[0];
  const matches = INTERVALS.filter((name) => size !== undefined && name.endsWith(size) && name[0] !== 'A' && name[0] !== 'd');
  return matches.map(write);
}

export const INTERVAL_NAMES = `${oneOf(['m2', 'M2', 'm3', 'M3', 'P4', 'P5', 'm6', 'M6', 'm7', 'M7'])} … P8`;
