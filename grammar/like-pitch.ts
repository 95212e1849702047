import type { IToken } from 'chevrotain';
import { t } from '../server/l10n/translate';
import { ACCIDENTALS, spanOf } from './pitch-words';
import { problem, quoted, type Report, type SyntaxCode, write } from './problems';

const LIKE_PITCH = /^([A-Ha-h])(isis|is|eses|es|s|(?:[#b♯♭x♮]|𝄪|𝄫)*?)([0-9]*)([oO°º]?)$/;
/** Endings of note names in other languages of the trade: Fis, Ces, As. They are proposed, never read. */
const ENDINGS: Readonly<Record<string, number>> = { is: 1, isis: 2, es: -1, eses: -2, s: -1 };
/** Where the violin's harmonics live; the octave to propose when nothing else tells one. */
const USUAL_OCTAVE = 5;

/** Reports what keeps a `LikePitch` token from being a pitch. `octave` is that of the pitch before it on the line. */
export function reportLikePitch(token: IToken, octave: number | undefined, report: Report): void {
  const [, letter = '', accidental = '', digits = '', circle = ''] = LIKE_PITCH.exec(token.image) ?? [];
  const capital = letter.toUpperCase();
  const name = `${capital === 'H' ? 'B' : capital}${mended(accidental)}`;
  const tail = circle === '' ? '' : 'o';
  const written = quoted(token.image);
  const tell = (code: SyntaxCode, why: string, ...meant: string[]): void =>
    report(problem(code, spanOf(token), why, meant.map(write)));

  if (digits === '') {
    const near = octave ?? USUAL_OCTAVE;
    const octaves = [near, near + 1, near - 1].filter((n) => n >= 0 && n <= 9);
    const why = t(
      '{written} has no octave, so it could be any of several notes. Add the number: A4 is the tuning A, middle C is C4.',
      { written },
    );
    tell('octave-missing', why, ...octaves.map((n) => `${name}${n}${tail}`));
  } else if (digits.length > 1) {
    const why = t(
      '{written} has no such octave: octaves are numbered 0 to 9, and A4 is the tuning A. A harmonic is marked with the letter o, not a zero.',
      { written },
    );
    // D60 is a slip for D6o more often than anything else.
    const zero = digits.length === 2 && digits[1] === '0';
    tell('octave-range', why, `${name}${digits[0]}${zero ? 'o' : tail}`);
  } else if (!(accidental in ACCIDENTALS)) {
    const why = t(
      "{written} has an accidental that can't be read. Write # or ## for sharps, b or bb for flats, and nothing for a natural.",
      { written },
    );
    tell('accidental', why, `${name}${digits}${tail}`);
  } else if (capital === 'H') {
    const why = t('{written} is not a pitch. Notes are named A to G: the one below C is B, and a semitone lower it is Bb.', {
      written,
    });
    tell('pitch-letter', why, `${name}${digits}${tail}`);
  } else if (capital !== letter) {
    const why = t(
      '{written} is not a pitch. Notes are named with capital letters, because small ones mean other things: b is a flat, f is loud.',
      { written },
    );
    tell('pitch-letter', why, `${name}${digits}${tail}`);
  } else {
    tell(
      'circle-misplaced',
      t('{written} is not read as a harmonic: the circle is a small letter o or the sign °.', { written }),
      `${name}${digits}${tail}`,
    );
  }
}

/** The accidental that a misspelled one was meant as. */
function mended(accidental: string): string {
  let alter = ENDINGS[accidental];
  if (alter === undefined) {
    alter = 0;
    for (const sign of accidental) alter += sign === 'x' ? 2 : (ACCIDENTALS[sign] ?? 0);
  }
  return alter >= 0 ? '#'.repeat(Math.min(alter, 2)) : 'b'.repeat(Math.min(-alter, 2));
}
