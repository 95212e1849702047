import type Fraction from 'fraction.js';
import type { Edit, Fix, Span } from '../../grammar/tree';
import { t } from '../l10n/translate';
import { durationText } from '../music/duration';
import type { Meter } from '../music/meter';
import type { Exact } from '../music/time';
import { error, type LineProblem } from './problem';

/** Where a bar begins on its line, and each note of it with its place in the bar. */
export interface BarStart {
  readonly start: number;
  readonly notes: { readonly at: Exact; readonly start: number }[];
}

interface WrongBar {
  readonly length: Exact;
  /** What the meter asks for. */
  readonly full: Exact;
  readonly meter: Meter;
  readonly start: BarStart;
  /** The bar line that closes it, or the end of the line where none does yet. */
  readonly bar: Span;
  /** The bar line stands in a motif, so nothing can be mended here. */
  readonly inMotif: boolean;
  /** The duration in force at the bar line. */
  readonly restore: Exact;
}

/** The problem of a bar that is not as long as its meter. */
export function barCheck(wrong: WrongBar): LineProblem {
  const { length, full, meter, start, bar, inMotif, restore } = wrong;
  const short = length.lt(full);
  const holes = {
    by: durationText(short ? full.sub(length) : length.sub(full)),
    meter: `${meter.count}/${meter.unit}`,
    length: durationText(length),
  };
  const message = short
    ? t(
        'This bar is {by} too short for {meter}: its notes and rests come to {length}. Add what is missing, or change the meter.',
        holes,
      )
    : t(
        'This bar is {by} too long for {meter}: its notes and rests come to {length}. Take it out, or put the bar line earlier, or change the meter.',
        holes,
      );
  const fixes = inMotif ? [] : short ? [completed(full.sub(length), bar, restore)] : split(wrong);
  const first = start.notes[0]?.start ?? Math.min(start.start, bar.start);
  return error('bar-length', { start: first, end: bar.end }, message, fixes);
}

/** A rest before the bar line; the duration that held there holds again after it. */
function completed(missing: Fraction, bar: Span, restore: Exact): Fix {
  const rest = missing.equals(restore) ? 'rest ' : `${durationText(missing)} rest ${durationText(restore)} `;
  return {
    title: t('Complete the bar with a {missing} rest', { missing: durationText(missing) }),
    edits: [{ span: { start: bar.start, end: bar.start }, text: rest }],
  };
}

/** More bar lines than this are the editor's to place. */
const MOST_LINES = 16;

/** Bar lines wherever the bar is full, if a note begins at each, and a rest for what the last of them then lacks. */
function split({ length, full, start: { notes }, bar, restore }: WrongBar): readonly Fix[] {
  const lines: Edit[] = [];
  let end: Fraction = full;
  for (; end.lt(length); end = end.add(full)) {
    const next = notes.find(({ at }) => at.equals(end));
    if (!next || lines.length === MOST_LINES) return [];
    lines.push({ span: { start: next.start, end: next.start }, text: '| ' });
  }
  const title = lines.length === 1 ? t('Put a bar line where the bar is full') : t('Put bar lines where the bars are full');
  // The bar that is still being written may be short.
  const open = bar.start === bar.end;
  if (open || end.equals(length)) return [{ title, edits: lines }];
  const rest = completed(end.sub(length), bar, restore);
  return [
    {
      title: t('{title}, and a {rest} rest after', { title, rest: durationText(end.sub(length)) }),
      edits: [...lines, ...rest.edits],
    },
  ];
}
