import { lineAt } from '../../grammar/at';
import type { Span } from '../../grammar/tree';
import type { Lined } from '../workspace/baseline';
import type { Place } from './report';

export function placeOf(tree: Lined, span: Span): Place {
  const from = lineAt(tree, span.start);
  const to = lineAt(tree, span.end);
  return {
    line: from + 1,
    column: span.start - lineStart(tree, from) + 1,
    endLine: to + 1,
    endColumn: span.end - lineStart(tree, to) + 1,
  };
}

function lineStart(tree: Lined, index: number): number {
  return tree.lines[index]?.start ?? 0;
}
