import { absolute, pathAt } from '../../grammar/at';
import type { Span } from '../../grammar/tree';
import { motifText } from '../passage/resolve';
import type { Action } from './actions';
import type { Reading } from './reading';

/** Writes a motif out where it is used. */
export function motifActions({ tree, resolved }: Reading, span: Span): readonly Action[] {
  const { line, index, items } = pathAt(tree, span.start);
  const use = items.at(-1);
  const text = use?.kind === 'motif' ? motifText(resolved, index, use)?.text : undefined;
  if (!use || text === undefined) return [];
  return [{ title: 'Write the motif out', kind: 'rewrite', edits: [{ span: absolute(line, use), text }] }];
}
