import Fraction from 'fraction.js';
import { child, children, type Element, numberOf, textOf } from './element';
import { NOTE_VALUES } from './note-values';

const ZERO = new Fraction(0);

/** A decimal of the file as an exact fraction; undefined where it is none, or out of all proportion. */
export function exact(text: string | undefined): Fraction | undefined {
  return text !== undefined && /^-?\d{1,9}(?:\.\d{1,6})?$/.test(text) ? new Fraction(text) : undefined;
}

/** The performed time of a note, backup or forward in whole notes; `divisions` go to a quarter. */
export function timeOf(element: Element, divisions: number): Fraction {
  return (exact(textOf(element, 'duration')) ?? ZERO).div(4 * divisions);
}

/** The note value as printed, with dots and tuplet; undefined where none is, or it makes no sense. */
export function printedValue(note: Element): Fraction | undefined {
  const value = NOTE_VALUES[textOf(note, 'type') ?? ''];
  if (!value) return undefined;
  const dots = children(note, 'dot').length;
  const tuplet = child(note, 'time-modification');
  const normal = numberOf(tuplet, 'normal-notes') ?? 1;
  const actual = numberOf(tuplet, 'actual-notes') ?? 1;
  const sensible = (n: number) => Number.isInteger(n) && n >= 1 && n <= 999;
  if (dots > 4 || !sensible(normal) || !sensible(actual)) return undefined;
  return new Fraction(...value).mul(2 ** (dots + 1) - 1, 2 ** dots).mul(normal, actual);
}

/** The note value as printed where it agrees with the duration to within its rounding, else the duration. */
export function durationOf(note: Element, divisions: number): Fraction {
  const performed = timeOf(note, divisions);
  const printed = printedValue(note);
  if (!printed) return performed;
  return printed
    .sub(performed)
    .abs()
    .compare(new Fraction(1, 4 * divisions)) < 0
    ? printed
    : performed;
}
