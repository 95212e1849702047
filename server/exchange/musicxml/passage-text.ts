import { printDuration } from '../../music/duration';
import type { TextBars } from './bars';
import type { Losses } from './losses';
import type { Slice, SliceNote } from './slices';
import { type Stroke, strokesOf } from './strokes';

const WIDTH = 96;

/** The lines of a passage's music, with settings and instructions on lines of their own before the bar they hold from. */
export function musicLines({ bars, opensRepeat }: TextBars, losses: Losses): readonly string[] {
  const slices = bars.flatMap((b) => b.slices);
  const firsts: number[] = [];
  let total = 0;
  for (const bar of bars) {
    firsts.push(total);
    total += bar.slices.length;
  }
  const breaks = new Set(firsts.filter((_, i) => (bars[i]?.settings.length ?? 0) + (bars[i]?.instructions.length ?? 0) > 0));
  const strokes = strokesOf(slices, breaks, losses);
  const starts = new Map(strokes.map((s) => [s.first, s]));
  const ends = new Set(strokes.map((s) => s.last));
  const inside = new Set(strokes.flatMap((s) => Array.from({ length: s.last - s.first }, (_, i) => s.first + 1 + i)));

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
    if (bar.settings.length + bar.instructions.length > 0) {
      flush();
      lines.push(...bar.settings, ...bar.instructions.map((text) => `> ${text}`));
    }
    if (i === 0 && opensRepeat) line = '|:';
    if (bar.slices.length === 0) continue;
    const text = (from: string | undefined) => {
      let current = from;
      const words: string[] = [];
      for (const [j, slice] of bar.slices.entries()) {
        words.push(...(bar.dynamics.get(j) ?? []));
        const length = printDuration(slice.duration);
        const before = length === current ? '' : `${length} `;
        current = length;
        words.push(`${opening(starts.get(first + j))}${before}${eventText(slice)}${ends.has(first + j) ? ')' : ''}`);
      }
      words.push(bar.close);
      return { words: words.join(' '), current };
    };
    let next = text(duration);
    if (line.length + next.words.length + 1 > WIDTH && !inside.has(first) && line !== '|:') {
      flush();
      next = text(undefined);
    }
    line += line === '' ? next.words : ` ${next.words}`;
    duration = next.current;
  }
  flush();
  return lines;
}

function opening(stroke: Stroke | undefined): string {
  return stroke ? `${stroke.word}(` : '';
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
