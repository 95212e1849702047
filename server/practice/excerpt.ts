import { t } from '../l10n/translate';
import type { ExerciseBar, Piece, Stroke } from './exercise';
import { costAt, type Source, type SourceBar, type SourcePiece } from './source';

/** A passage of no more than this is practised whole. */
const WHOLE = { bars: 4, notes: 16 };
/** A longer one in so many bars at a time, each with at most so many notes. */
const BARS = 2;
const NOTES = 24;

/** The bars to practise a passage by: all of a short one, else the neighbouring two with the largest weight. */
export function heaviestBars(source: Source, weight = (bar: SourceBar) => weightOf(source, bar)): readonly SourceBar[] {
  const bars = source.bars.map((bar) => (notesIn(bar) > NOTES ? around(source, bar) : bar));
  const played = bars.filter((bar) => notesIn(bar) > 0);
  if (played.length <= WHOLE.bars && played.reduce((sum, bar) => sum + notesIn(bar), 0) <= WHOLE.notes) return played;
  let best: readonly SourceBar[] = [];
  let most = 0;
  for (let first = 0; first < bars.length; first++) {
    const window = bars.slice(first, first + BARS).filter((bar) => notesIn(bar) > 0);
    const sum = window.reduce((total, bar) => total + weight(bar), 0);
    if (sum > most) {
      best = window;
      most = sum;
    }
  }
  return best;
}

export function weightOf(source: Source, { pieces }: SourceBar): number {
  return pieces.reduce((sum, { event }) => sum + costAt(source, event), 0);
}

export function notesIn({ pieces }: ExerciseBar): number {
  return pieces.filter(({ notes }) => notes.length > 0).length;
}

/** Of an endless bar (music without bar lines) only the notes around its hardest one. */
function around(source: Source, bar: SourceBar): SourceBar {
  const { pieces } = bar;
  let hardest = 0;
  for (const [at, { event }] of pieces.entries())
    if (costAt(source, event) > costAt(source, pieces[hardest]!.event)) hardest = at;
  const from = Math.max(0, Math.min(hardest - NOTES / 2, pieces.length - NOTES));
  const { meter: _, ...rest } = bar;
  return { ...rest, pieces: pieces.slice(from, from + NOTES) };
}

/** The notes from one event to another with what lies between, in the bars they stand in; those bars keep their lines, not their lengths. */
export function between(source: Source, from: number, to: number): readonly SourceBar[] {
  return source.bars.flatMap((bar) => {
    const { meter: _, pieces, ...rest } = bar;
    const first = pieces.findIndex(({ event }) => event !== undefined && event >= from);
    const last = pieces.findLastIndex(({ event }) => event !== undefined && event <= to);
    return first >= 0 && first <= last ? [{ ...rest, pieces: pieces.slice(first, last + 1) }] : [];
  });
}

/** Bars cut out of their music: no tie goes in or out, no stroke goes over a change of tempo or meter, and a slur over one note is none. */
export function cutOut<B extends ExerciseBar>(bars: readonly B[]): readonly B[] {
  const strokes = strokesWithin(bars);
  const under = new Map<Stroke, number>();
  for (const stroke of strokes) if (stroke) under.set(stroke, (under.get(stroke) ?? 0) + 1);
  const pieces = bars.flatMap((bar) => bar.pieces);
  let at = -1;
  return bars.map((bar) => ({
    ...bar,
    pieces: bar.pieces.map((piece) => {
      at++;
      const { stroke: _, ...rest } = piece;
      const stroke = strokes[at];
      return {
        ...rest,
        ...(stroke && (stroke.word !== 'slur' || (under.get(stroke) ?? 0) > 1) && { stroke }),
        notes: piece.notes.map((note) => ({
          ...note,
          tied: note.tied && (pieces[at + 1]?.notes.length ?? 0) > 0,
          held: note.held && (pieces[at - 1]?.notes.length ?? 0) > 0,
        })),
      };
    }),
  }));
}

/** The stroke of every piece, parted where settings stand between two bars: a stroke is written on one line. */
function strokesWithin(bars: readonly ExerciseBar[]): readonly (Stroke | undefined)[] {
  const parted = new Map<Stroke, Stroke>();
  return bars.flatMap((bar, index) => {
    const before = bars[index - 1];
    const parts = before && settingsOf(before) !== settingsOf(bar);
    if (parts) for (const { stroke } of before.pieces) if (stroke) parted.set(stroke, { word: 'slur' });
    return bar.pieces.map(({ stroke }) => stroke && (parted.get(stroke) ?? stroke));
  });
}

function settingsOf({ tempo, meter }: ExerciseBar): string {
  return `${tempo.beat.toFraction()} ${tempo.bpm} ${meter?.count} ${meter?.unit}`;
}

/** `bar 4`, `bars 3-4`, `the upbeat`. */
export function barsName(bars: readonly SourceBar[]): string {
  const first = bars[0]?.number ?? 0;
  const last = bars.at(-1)?.number ?? first;
  if (last === 0) return t('the upbeat');
  return first === last
    ? t('bar {first}', { first })
    : first === 0
      ? t('the upbeat to bar {last}', { last })
      : t('bars {first}-{last}', { first, last });
}

/** True where a piece goes on sounding from the one before or into the one after: its rhythm is not free. */
export function isTied({ notes }: Piece): boolean {
  return notes.some(({ tied, held }) => tied || held);
}

export function eventOf(piece: Piece): number | undefined {
  return (piece as SourcePiece).event;
}
