/**
 * A text with places marked in it: `^` is a caret, and two of them hold a stretch between them. The language
 * itself has no use for that sign, so a fixture reads like the file that a user is typing.
 */
export interface Marked {
  readonly text: string;
  /** Offsets of the carets in `text`. */
  readonly carets: readonly number[];
}

export function marked(fixture: string): Marked {
  const pieces = fixture.split('^');
  const carets: number[] = [];
  let text = '';
  pieces.forEach((piece, index) => {
    text += piece;
    if (index < pieces.length - 1) carets.push(text.length);
  });
  return { text, carets };
}

/** The one caret of a fixture. */
export function caret(fixture: string): { readonly text: string; readonly at: number } {
  const { text, carets } = marked(fixture);
  const [at, ...more] = carets;
  if (at === undefined || more.length > 0)
    throw new Error(`A fixture with one caret is wanted, this has ${carets.length}: ${fixture}`);
  return { text, at };
}

/** The stretch between the two carets of a fixture. */
export function stretch(fixture: string): {
  readonly text: string;
  readonly span: { readonly start: number; readonly end: number };
} {
  const { text, carets } = marked(fixture);
  const [start, end, ...more] = carets;
  if (start === undefined || end === undefined || more.length > 0)
    throw new Error(`A fixture with two carets is wanted: ${fixture}`);
  return { text, span: { start, end } };
}

/** The text after edits that don't overlap. */
export function edited(
  text: string,
  edits: readonly { readonly span: { readonly start: number; readonly end: number }; readonly text: string }[],
): string {
  return [...edits]
    .sort((a, b) => b.span.start - a.span.start || b.span.end - a.span.end)
    .reduce((now, edit) => now.slice(0, edit.span.start) + edit.text + now.slice(edit.span.end), text);
}
