import type { IToken } from 'chevrotain';
import { t } from '../server/l10n/translate';
import { spanOf } from './pitch-words';
import { problem, quoted, type Replacement, type Report, write } from './problems';
import { SLASH } from './tokens';
import type { DurationItem } from './tree';

const FRACTION = new RegExp(`^([0-9]+)${SLASH}([0-9]+)(\\.*)$`);
/** Longer numbers are slips, and would cost exactness. */
const MOST_DIGITS = 4;
/** Whole notes of a maxima, the longest note that has a sign (W3C MusicXML 4.0, note-type-value). What is longer is a slip. */
const MAXIMA = 8;

/** Reads a `Fraction` token, or reports why it is no duration. */
export function readDuration(token: IToken, report: Report): DurationItem | undefined {
  const [, above = '', below = '', dots = ''] = FRACTION.exec(token.image) ?? [];
  const place = spanOf(token);
  if (above.length > MOST_DIGITS || below.length > MOST_DIGITS) {
    const why = t(
      '{written} is not a duration: its numbers have more than {most} digits. Write a fraction of a whole note such as 1/8.',
      { written: quoted(token.image), most: MOST_DIGITS },
    );
    report(problem('duration-size', place, why));
    return undefined;
  }
  const numerator = Number(above);
  const denominator = Number(below);
  if (numerator === 0 || denominator === 0) {
    const written = quoted(token.image);
    const why =
      denominator === 0
        ? t('{written} has a zero below the line, so it is not a note value. Write a fraction of a whole note such as 1/8.', {
            written,
          })
        : t('{written} lasts no time at all. Write a fraction of a whole note such as 1/8.', { written });
    const fixes = [write(denominator === 0 ? '1/8' : `1/${denominator}`)];
    report(problem('duration-zero', place, why, fixes));
    return undefined;
  }
  if (numerator > MAXIMA * denominator) {
    const written = quoted(token.image);
    const notes = numerator / denominator;
    const why =
      notes >= 100
        ? t(
            '{written} is longer than any written note: more than a hundred whole notes. Write a fraction of a whole note such as 1/8; tie notes for anything longer.',
            { written },
          )
        : t(
            '{written} is longer than any written note: {count} whole notes. Write a fraction of a whole note such as 1/8; tie notes for anything longer.',
            { written, count: Math.floor(notes) },
          );
    report(problem('duration-size', place, why));
  }
  const dotted = (count: number): { numerator: number; denominator: number } =>
    count === 0
      ? { numerator, denominator }
      : { numerator: numerator * (2 ** (count + 1) - 1), denominator: denominator * 2 ** count };
  const value = dotted(Math.min(dots.length, 1));
  if (dots.length > 1) {
    const meant = dotted(2);
    const fixes: Replacement[] = dots.length === 2 ? [write(`${meant.numerator}/${meant.denominator}`)] : [];
    report(
      problem(
        'duration-dots',
        place,
        t('A duration takes one dot, which adds half. Write the length of {written} as a plain fraction.', {
          written: quoted(token.image),
        }),
        fixes,
      ),
    );
    return dots.length === 2 ? { kind: 'duration', ...place, ...meant } : { kind: 'duration', ...place, ...value };
  }
  return { kind: 'duration', ...place, ...value };
}
