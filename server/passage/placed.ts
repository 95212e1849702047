import type { NoteNode, Span } from '../../grammar/tree';
import type { LineEvent } from './line-music';

/** Where a note is written; one out of a motif is as good as written at the use, `outside`. */
export function placed(note: NoteNode, outside: Span | undefined): LineEvent['notes'][number] {
  if (outside) return { span: outside, form: outside };
  const span = place(note);
  const form = place(note.form);
  return note.hints ? { span, form, hints: place(note.hints) } : { span, form };
}

export function place({ start, end }: Span): Span {
  return { start, end };
}
