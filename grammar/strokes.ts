import type { IToken } from 'chevrotain';
import { nearest } from './nearest';
import { spanOf } from './pitch-words';
import { problem, quoted, type Report, remove, write } from './problems';
import { OtherStroke } from './tokens';
import type { NoteNode, Span, StrokeItem } from './tree';

const STROKES = ['slur', 'up', 'down'] as const;

/** What a stroke is but for its word. */
type Inside = Pick<StrokeItem, 'start' | 'end' | 'items' | 'hints'>;

/** The stroke between two parentheses; one with an unknown word or none is reported and read as a slur. */
export function strokeOf(word: IToken | undefined, open: IToken, inside: Inside, report: Report): StrokeItem {
  if (!word) {
    const why =
      'A parenthesis holds the notes of a bow stroke, or notes that hints after it hold for, and this is neither. Write slur(, up( or down( before the notes, or hints behind them: (D5 E5)[II].';
    report(
      problem(
        'parenthesis-missing',
        spanOf(open),
        why,
        STROKES.map((stroke) => write(`${stroke}(`)),
      ),
    );
  } else if (word.tokenType === OtherStroke) {
    const why = `${quoted(word.image)} is no bow stroke. Notes in parentheses are a slur( …), an up( …) or a down( …).`;
    const near = nearest(word.image, STROKES, 1);
    report(problem('unknown-stroke', spanOf(word), why, (near.length > 0 ? near : STROKES).map(write)));
  }
  const stroke = STROKES.find((name) => name === word?.image) ?? 'slur';
  return { kind: 'stroke', stroke, word: spanOf(word ?? open), ...inside };
}

export function nestedStroke(word: IToken, report: Report): void {
  const why =
    'A bow stroke cannot hold another: everything in parentheses is one bow already. Close the first stroke before this one begins.';
  report(problem('nested-stroke', spanOf(word), why));
}

export function unclosedStroke(word: IToken, last: IToken, report: Report): void {
  const why = `The stroke that opens with ${quoted(word.image)} is not closed, so everything up to the end of the line is under it. Add ) after its last note, on the same line.`;
  report(problem('parenthesis-missing', spanOf(last), why, [{ title: 'Close the stroke here', text: `${last.image})` }]));
}

export function nothingInside(place: Span, report: Report): void {
  const why = 'There is no note in these parentheses. Write the notes between them, or remove it all.';
  report(problem('note-missing', place, why, [remove('the parentheses')]));
}

/** After a `+` or `slide` that no note follows. */
export function noteMissing(token: IToken, report: Report): void {
  const why =
    token.image === '+'
      ? 'A + joins two notes of a double stop, and the second is missing. Write it after the +, or remove the +.'
      : 'A slide needs the harmonic it goes to. Write it after the word: slide D7o.';
  report(problem('note-missing', spanOf(token), why, [remove(quoted(token.image))]));
}

export function tooManyNotes(note: NoteNode, report: Report): void {
  const why =
    'A double stop has two notes, and this is one more. A bow sounds no more than two strings at once for longer than a moment: leave one out.';
  report(problem('too-many-notes', note, why));
}
