import type Fraction from 'fraction.js';
import type { Span } from '../../grammar/tree';
import { printDuration } from '../music/duration';
import type { Meter } from './passage';
import type { Cure, LineProblem } from './problem';

/** Where a bar begins on its line, and each note of it with its place in the bar. */
export interface BarStart {
  readonly start: number;
  readonly notes: { readonly at: Fraction; readonly start: number }[];
}

interface WrongBar {
  readonly length: Fraction;
  /** What the meter asks for. */
  readonly full: Fraction;
  readonly meter: Meter;
  readonly start: BarStart;
  /** The bar line that closes it, or the end of the line where none does yet. */
  readonly bar: Span;
  /** The bar line stands in a motif, so nothing can be mended here. */
  readonly inMotif: boolean;
  /** The duration in force at the bar line. */
  readonly restore: Fraction;
}

/** The problem of a bar that is not as long as its meter. */
export function barCheck({ length, full, meter, start, bar, inMotif, restore }: WrongBar): LineProblem {
  const name = `${meter.count}/${meter.unit}`;
  const short = length.lt(full);
  const by = printDuration(short ? full.sub(length) : length.sub(full));
  return {
    code: 'bar-length',
    severity: 'error',
    span: { start: barFirst(start, bar), end: bar.end },
    message: `This bar is ${by} too ${short ? 'short' : 'long'} for ${name}: its notes and rests come to ${printDuration(length)}. ${
      short ? 'Add what is missing' : 'Take it out, or put the bar line earlier'
    }, or change the meter.`,
    cures: inMotif ? [] : short ? [completed(full.sub(length), bar, restore)] : split(full, start),
  };
}

function barFirst(start: BarStart, bar: Span): number {
  return start.notes[0]?.start ?? Math.min(start.start, bar.start);
}

/** A rest before the bar line; the duration that held there holds again after it. */
function completed(missing: Fraction, bar: Span, restore: Fraction): Cure {
  const rest = missing.equals(restore) ? 'rest ' : `${printDuration(missing)} rest ${printDuration(restore)} `;
  return {
    title: `Complete the bar with a ${printDuration(missing)} rest`,
    edits: [{ span: { start: bar.start, end: bar.start }, text: rest }],
  };
}

/** A bar line where the bar is full, if a note begins there. */
function split(full: Fraction, { notes }: BarStart): readonly Cure[] {
  const next = notes.find(({ at }) => at.equals(full));
  return next
    ? [{ title: 'Put a bar line where the bar is full', edits: [{ span: { start: next.start, end: next.start }, text: '| ' }] }]
    : [];
}
