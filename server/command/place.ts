import type { Span } from '../../grammar/tree';

/** A text whose places are told by line and column. */
export interface Lined {
  readonly text: string;
  readonly lines: readonly Span[];
}

/** Counted from 1, columns in UTF-16 code units, the end exclusive: as terminals, SARIF and editors' status bars count. */
export interface Place {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

export function placeOf(tree: Lined, span: Span): Place {
  const from = lineIndex(tree, span.start);
  const to = lineIndex(tree, span.end);
  return {
    line: from + 1,
    column: span.start - lineStart(tree, from) + 1,
    endLine: to + 1,
    endColumn: span.end - lineStart(tree, to) + 1,
  };
}

/** Index of the line that an offset lies on; its own break belongs to a line. */
function lineIndex(tree: Lined, offset: number): number {
  let low = 0;
  let high = tree.lines.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (lineStart(tree, middle) <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}

function lineStart(tree: Lined, index: number): number {
  return tree.lines[index]?.start ?? 0;
}
