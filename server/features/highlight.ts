import { absolute, pathAt } from '../../grammar/at';
import type { NoteForm, PitchNode, Span, Tree } from '../../grammar/tree';
import { eventsOf, itemsOf } from '../../grammar/walk';
import { semitone } from '../music/pitch';
import { motifAt, motifNames } from './motifs';

export interface Highlight {
  readonly span: Span;
  readonly kind: 'definition' | 'use';
}

/** Every place that names the same motif, or every note written for the same pitch, however it is spelled. */
export function highlights(tree: Tree, offset: number): readonly Highlight[] {
  const motif = motifAt(tree, offset);
  if (motif)
    return motifNames(tree, motif.name).map(({ span, definition }) => ({ span, kind: definition ? 'definition' : 'use' }));
  const { note } = pathAt(tree, offset);
  if (!note) return [];
  const wanted = formKey(note.form);
  return tree.lines.flatMap((line) =>
    eventsOf(itemsOf(line.node))
      .flatMap(({ notes }) => notes)
      .filter(({ form }) => formKey(form) === wanted)
      .map(({ form }) => ({ span: absolute(line, form), kind: 'use' as const })),
  );
}

/** Equal for forms that print the same notes, a sounding pitch with and without its circle told apart. */
function formKey(form: NoteForm): string {
  const key = (pitch: PitchNode) => semitone(pitch);
  switch (form.kind) {
    case 'plain':
      return `${form.kind} ${key(form.pitch)} ${form.circle !== undefined}`;
    case 'artificial':
      return `${form.kind} ${key(form.stop)} ${key(form.touch)}`;
    case 'diamond':
      return `${form.kind} ${key(form.touch)}`;
  }
}
