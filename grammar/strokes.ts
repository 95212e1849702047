import type { IToken } from 'chevrotain';
import { t } from '../server/l10n/translate';
import { REST_MARKS } from './marks';
import { nearest } from './nearest';
import { spanOf } from './pitch-words';
import { problem, quoted, type Report, removal, remove, write } from './problems';
import { OtherStroke } from './tokens';
import type { DurationItem, EventItem, GroupItem, Item, MarkNode, NoteNode, Span, StrokeItem } from './tree';

const STROKES = ['slur', 'up', 'down'] as const;

/** What a stroke is but for its word. */
type Inside = Pick<StrokeItem, 'start' | 'end' | 'items' | 'hints'>;

/** The stroke between two parentheses; one with an unknown word or none is reported and read as a slur. */
export function strokeOf(word: IToken | undefined, open: IToken, inside: Inside, report: Report): StrokeItem {
  if (!word) {
    const why = t(
      'Parentheses hold the notes of a bow stroke, or notes that share the hints after them; these are neither. Write slur(, up( or down( before the notes, or hints after them: (D5 E5)[II].',
    );
    report(
      problem(
        'parenthesis-missing',
        spanOf(open),
        why,
        STROKES.map((stroke) => write(`${stroke}(`)),
      ),
    );
  } else if (word.tokenType === OtherStroke) {
    const why = t('{word} is not a bow stroke. Notes in parentheses are a slur( …), an up( …) or a down( …).', {
      word: quoted(word.image),
    });
    const near = nearest(word.image, STROKES, 1);
    report(problem('unknown-stroke', spanOf(word), why, (near.length > 0 ? near : STROKES).map(write)));
  }
  const stroke = STROKES.find((name) => name === word?.image) ?? 'slur';
  return { kind: 'stroke', stroke, word: spanOf(word ?? open), ...inside };
}

/** A note or notes with the marks that stand before them, outermost first. */
export function underMarks(marks: readonly MarkNode[], item: Item, report: Report): Item {
  const marked = withMarks(marks, item);
  const group = innermost(marked);
  // What can't be read in the place of a note has been told.
  if (group?.items.some((inside) => inside.kind === 'rest' && inside.unreadable !== undefined)) return marked;
  for (const mark of marks)
    if (mark.word === 'fingered-tremolo' && !(mark === group?.mark && notesByTurns(group))) twoNotesMissing(mark, report);
  return marked;
}

function withMarks(marks: readonly MarkNode[], item: Item): Item {
  if (item.kind === 'event') return { ...item, start: marks[0]?.start ?? item.start, marks };
  if (item.kind === 'rest') return marks.length > 0 ? { ...item, start: marks[0]?.start ?? item.start, marks } : item;
  const around = [...marks].reverse();
  let inner = item;
  if (item.kind === 'group' && item.mark === undefined) {
    const mark = around.shift();
    if (mark) inner = { ...item, start: mark.start, mark };
  }
  for (const mark of around) inner = { kind: 'group', start: mark.start, end: inner.end, mark, items: [inner] };
  return inner;
}

/** The two notes of a fingered tremolo, with the value before them that they go by; undefined where it holds anything else. */
export function notesByTurns({
  mark,
  items,
}: GroupItem): { readonly value?: DurationItem; readonly notes: readonly [EventItem, EventItem] } | undefined {
  if (mark?.word !== 'fingered-tremolo') return undefined;
  const [first, ...others] = items;
  const value = first?.kind === 'duration' ? first : undefined;
  const [one, two, ...more] = value ? others : items;
  if (one?.kind !== 'event' || two?.kind !== 'event' || more.length > 0) return undefined;
  if ([one, two].some(({ marks }) => marks?.some(({ word }) => word === 'grace' || word === 'fingered-tremolo')))
    return undefined;
  return { ...(value && { value }), notes: [one, two] };
}

/** The group in groups of one mark each. */
function innermost(item: Item): GroupItem | undefined {
  let group = item.kind === 'group' ? item : undefined;
  for (let only = group?.items[0]; group?.items.length === 1 && only?.kind === 'group'; only = group.items[0]) group = only;
  return group;
}

function twoNotesMissing(mark: MarkNode, report: Report): void {
  const why = t(
    'A fingered tremolo goes by turns between two notes, in parentheses of its own, which hold nothing else but a duration before both. Write fingered-tremolo(A5 C6), or fingered-tremolo(1/16 A5 C6) where the speed is written.',
  );
  report(problem('two-notes', mark, why, [remove(quoted(mark.word))]));
}

export function nestedStroke(word: IToken, report: Report): void {
  const why = t(
    'A bow stroke cannot hold another: everything in parentheses is one bow already. Close the first stroke before this one begins.',
  );
  report(problem('nested-stroke', spanOf(word), why));
}

export function unclosedStroke(word: IToken, last: IToken, report: Report): void {
  const why = t(
    'The stroke that opens with {word} is not closed, so everything up to the end of the line belongs to it. Add ) after its last note, on the same line.',
    { word: quoted(word.image) },
  );
  report(problem('parenthesis-missing', spanOf(last), why, [{ title: t('Close the stroke here'), text: `${last.image})` }]));
}

export function nothingInside(place: Span, report: Report): void {
  const why = t('There is no note in these parentheses. Write notes between them, or remove them.');
  report(problem('note-missing', place, why, [removal(t('Remove the parentheses'))]));
}

/** Marks that no note follows. */
export function markMissesNote(marks: readonly MarkNode[], report: Report): void {
  const words = marks.map(({ word }) => word).join(' ');
  const place = { start: marks[0]?.start ?? 0, end: marks.at(-1)?.end ?? 0 };
  const why = t(
    '“{words}” goes before a note, and no note follows. Write the note after it, or several in parentheses: {words}(D5 E5).',
    { words },
  );
  report(problem('note-missing', place, why, [remove(quoted(words))]));
}

/** Tells the marks that can't stand over a rest, and gives back those that can. */
export function markOverRest(marks: readonly MarkNode[], report: Report): readonly MarkNode[] {
  return marks.filter((mark) => {
    if (REST_MARKS.includes(mark.word)) return true;
    const why = t('A rest can have a fermata or a breath over it, and no {word}. Write it before a note, or remove it.', {
      word: mark.word,
    });
    report(problem('note-missing', mark, why, [remove(quoted(mark.word))]));
    return false;
  });
}

/** After a `+` or `slide` that no note follows. */
export function noteMissing(token: IToken, report: Report): void {
  const why =
    token.image === '+'
      ? t('A + joins the notes of a double stop or chord, and the next is missing. Write it after the +, or remove the +.')
      : t('A slide needs a note to lead to. Write it after the word: slide D7o.');
  report(problem('note-missing', spanOf(token), why, [remove(quoted(token.image))]));
}

export function tooManyNotes(note: NoteNode, report: Report): void {
  const why = t('A chord has four notes at most, one for each string, and this is one more: leave one out.');
  report(problem('too-many-notes', note, why));
}
