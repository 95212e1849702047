import { pathAt } from '../../grammar/at';
import type { Span } from '../../grammar/tree';
import { t } from '../l10n/translate';
import type { Action } from './action';
import { motifWrittenOut } from './motifs';
import type { Reading } from './reading';

/** Writes a motif out where it is used. */
export function motifActions(reading: Reading, span: Span): readonly Action[] {
  const { index, items } = pathAt(reading.tree, span.start);
  const use = items.at(-1);
  const edit = use?.kind === 'motif' ? motifWrittenOut(reading, index, use) : undefined;
  return edit ? [{ title: t('Write the motif out'), kind: 'rewrite', edits: [edit] }] : [];
}
