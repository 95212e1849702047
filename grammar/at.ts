import type { Fix, HintList, Item, Line, NoteNode, Span, Tree } from './tree';

/** The index of the line that `offset` stands on; a line break belongs to the line it ends. */
export function lineAt({ lines }: { readonly lines: readonly Span[] }, offset: number): number {
  let low = 0;
  let high = lines.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((lines[middle] as Span).start <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** A span of a line's node as offsets in the file. */
export function absolute(line: Line, span: Span): Span {
  return { start: line.start + span.start, end: line.start + span.end };
}

/** Lifts a span from its line to the file. */
export function lifted(span: Span, lineStart: number): Span {
  return { start: span.start + lineStart, end: span.end + lineStart };
}

/** The same fix with its places counted from the start of the file. */
export function liftedFix({ title, edits }: Fix, lineStart: number): Fix {
  return { title, edits: edits.map(({ span, text }) => ({ span: lifted(span, lineStart), text })) };
}

/** What a place of the file is in, outermost first. */
export interface Path {
  /** Index into `Tree.lines`. */
  readonly index: number;
  readonly line: Line;
  /** The place, counted from the start of the line as the spans of the line's node are. */
  readonly column: number;
  /** Strokes and groups from the outermost inwards, then the item itself. */
  readonly items: readonly Item[];
  readonly note?: NoteNode;
  /** The note's, or those behind the parenthesis of the innermost stroke or group. */
  readonly hints?: HintList;
}

/**
 * What stands at `offset`. A place between two neighbours that touch belongs to the right one; the place
 * right after an item still belongs to that item if nothing begins there.
 */
export function pathAt(tree: Tree, offset: number): Path {
  const index = lineAt(tree, offset);
  const line = tree.lines[index] as Line;
  const column = Math.min(offset, line.end) - line.start;
  const items: Item[] = [];
  let level: readonly Item[] = 'items' in line.node ? line.node.items : [];
  for (;;) {
    const item = covering(level, column);
    if (!item) break;
    items.push(item);
    if (!('items' in item)) break;
    level = item.items;
  }
  const inner = items[items.length - 1];
  const note = inner?.kind === 'event' ? covering(inner.notes, column) : undefined;
  const written = note?.hints ?? (inner && 'items' in inner ? inner.hints : undefined);
  const hints = written && covers(written, column) ? written : undefined;
  return { index, line, column, items, ...(note && { note }), ...(hints && { hints }) };
}

/** True if `column` is inside the span or at either of its ends. */
export function covers(span: Span, column: number): boolean {
  return span.start <= column && column <= span.end;
}

/** The last of the pieces (in the order of the text, not overlapping) that covers `column`. */
export function covering<T extends Span>(pieces: readonly T[], column: number): T | undefined {
  let low = 0;
  let high = pieces.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((pieces[middle] as T).start <= column) low = middle + 1;
    else high = middle;
  }
  const piece = pieces[low - 1];
  return piece && covers(piece, column) ? piece : undefined;
}
