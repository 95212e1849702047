import { printRest } from '../../../grammar/print';
import { t } from '../../l10n/translate';
import { durationText } from '../../music/duration';
import { tremoloValue } from '../../music/tremolo';
import { BY_TURNS } from '../../passage/ornament';
import { inQuotes, type TextBar, type TextBars } from './bars';
import type { Losses } from './losses';
import type { Slice, SliceNote } from './slices';
import { type Stroke, strokesOf } from './strokes';

/** The lines of a passage's music, with settings and instructions on lines of their own before the bar they hold from. */
export function musicLines({ bars, opensRepeat }: TextBars, losses: Losses): readonly string[] {
  const slices = bars.flatMap((b) => b.slices);
  const firsts: number[] = [];
  let total = 0;
  for (const bar of bars) {
    firsts.push(total);
    total += bar.slices.length;
  }
  // A slur goes on through an instruction, which then stands between its notes; a tie keeps the bow going by itself.
  const isHeld = (first: number) => slices[first - 1]?.notes.some((n) => n.tied) ?? false;
  const breaks = new Set(
    firsts.filter((first, i) => {
      const { settings = [], instructions = [] } = bars[i] ?? {};
      return settings.length > 0 || (instructions.length > 0 && isHeld(first));
    }),
  );
  const { strokes, phrases } = strokesOf(slices, breaks, losses);
  const starts = new Map(strokes.map((s) => [s.first, s]));
  const ends = countBy([...strokes, ...phrases].map((s) => s.last));
  const begins = countBy(phrases.map((p) => p.first));
  const inside = new Set(
    [...strokes, ...phrases].flatMap((s) => Array.from({ length: s.last - s.first }, (_, i) => s.first + 1 + i)),
  );

  /** Nothing begins between this slice and the one before it, nor ends there. */
  const joins = (bar: TextBar, first: number, j: number) =>
    !starts.has(first + j) && !begins.has(first + j) && !ends.has(first + j - 1) && !bar.words.has(j);

  const lines: string[] = [];
  let line = '';
  let duration: string | undefined;
  const flush = () => {
    if (line !== '') lines.push(line);
    line = '';
    duration = undefined;
  };
  for (const [i, bar] of bars.entries()) {
    const first = firsts[i] as number;
    const over = inside.has(first) && bar.settings.length === 0 ? [] : bar.instructions;
    const between = over.length > 0 ? [] : bar.instructions.map(inQuotes);
    if (bar.settings.length + over.length > 0) {
      flush();
      lines.push(...bar.settings, ...over.map((text) => `> ${text}`));
    }
    if (i === 0 && opensRepeat) line = '|:';
    if (bar.slices.length === 0) continue;
    const text = (from: string | undefined) => {
      let current = from;
      const words: string[] = [...bar.opens, ...between];
      if (bar.rests !== undefined) {
        const rest = `${opening(starts.get(first), begins.get(first) ?? 0)}${printRest(bar.rests)}`;
        words.push(`${rest}${')'.repeat(ends.get(first) ?? 0)}`, ...bar.ends, bar.close);
        return { words: words.join(' '), current };
      }
      const ordered = apartWhereCrossed(bar.slices, (j) => joins(bar, first, j), losses);
      for (const [j, slice] of ordered.entries()) {
        words.push(...(bar.words.get(j) ?? []));
        // Words that take no parentheses stand outside of them as well as in; a duration inside a grace group ends with it.
        const marks = marksOf(slice);
        if (slice.grace) {
          const value = durationText(slice.grace);
          const goesOn = bar.slices[j - 1]?.grace?.equals(slice.grace) && joins(bar, first, j);
          const next = bar.slices[j + 1]?.grace?.equals(slice.grace) && joins(bar, first, j + 1);
          const note = `${marks}${eventText(slice)}${next ? '' : ')'}${')'.repeat(ends.get(first + j) ?? 0)}`;
          words.push(goesOn ? note : `${opening(starts.get(first + j), begins.get(first + j) ?? 0)}grace(${value} ${note}`);
          continue;
        }
        const closing = ')'.repeat(ends.get(first + j) ?? 0);
        if (slice.byTurns === 'stop') {
          words.push(`${marks}${eventText(slice)})${closing}`);
          continue;
        }
        const length = durationText(slice.byTurns ? slice.duration.mul(2) : slice.duration);
        const before = length === current ? '' : `${length} `;
        current = length;
        words.push(
          `${opening(starts.get(first + j), begins.get(first + j) ?? 0)}${before}${slice.byTurns ? byTurns(slice) : ''}${marks}${withTremolo(slice)}${closing}`,
        );
      }
      words.push(...bar.ends, bar.close);
      return { words: words.join(' '), current };
    };
    let next = text(duration);
    // A bar to a line, as far as slurs allow: it reads beside a preview, and a change of one bar is a change of one line.
    if (line !== '' && line !== '|:' && !inside.has(first)) {
      flush();
      next = text(undefined);
    }
    line += line === '' ? next.words : ` ${next.words}`;
    duration = next.current;
  }
  flush();
  return lines;
}

/** Each two notes by turns as one; those that are cut, or where something begins or ends between them, with a tremolo each. */
function apartWhereCrossed(slices: readonly Slice[], joins: (j: number) => boolean, losses: Losses): readonly Slice[] {
  const pairs = slices.map((slice, j) => {
    const next = slices[j + 1];
    return (
      slice.byTurns === 'start' &&
      next?.byTurns === 'stop' &&
      [slice, next].every(({ notes, grace }) => notes.length > 0 && !grace) &&
      slice.duration.equals(next.duration) &&
      !next.notes.some(({ held }) => held) &&
      joins(j + 1)
    );
  });
  return slices.map(({ byTurns: end, ...slice }, j) => {
    if (!end) return slice;
    if (pairs[j] || pairs[j - 1]) return { ...slice, byTurns: end };
    if (end === 'start')
      losses.changed(
        slice.measure,
        t('a tremolo between two notes that can’t be kept together, each written with a tremolo of its own'),
      );
    return { ...slice, printed: [...slice.printed, 'tremolo'] };
  });
}

function byTurns({ duration, strokes }: Slice): string {
  return `${BY_TURNS}(${strokes === undefined ? '' : `${durationText(tremoloValue(duration.mul(2), strokes))} `}`;
}

function opening(stroke: Stroke | undefined, phrases: number): string {
  return `${'phrase('.repeat(phrases)}${stroke ? `${stroke.word}(` : ''}`;
}

function countBy(indices: readonly number[]): ReadonlyMap<number, number> {
  const counts = new Map<number, number>();
  for (const index of indices) counts.set(index, (counts.get(index) ?? 0) + 1);
  return counts;
}

/** The words before a note; a measured tremolo has its value in parentheses with the note, and so comes last. */
function marksOf(slice: Slice): string {
  return slice.printed
    .filter((word) => word !== 'tremolo' || slice.strokes === undefined)
    .map((word) => `${word} `)
    .join('');
}

function withTremolo(slice: Slice): string {
  if (slice.strokes === undefined || !slice.printed.includes('tremolo')) return eventText(slice);
  const value = tremoloValue(slice.duration, slice.strokes);
  return `tremolo(${durationText(value)} ${eventText(slice)})`;
}

function eventText(slice: Slice): string {
  if (slice.notes.length === 0) return 'rest';
  return `${slice.slide ? 'slide ' : ''}${slice.notes.map(noteText).join('+')}`;
}

function noteText(note: SliceNote): string {
  const expected = note.expected === undefined ? '' : ` = ${note.expected}`;
  const hints = note.hints.length > 0 ? ` [${note.hints.join(' ')}]` : '';
  return `${note.text}${expected}${note.tied ? '_' : ''}${hints}`;
}
