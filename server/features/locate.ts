import type { EventItem, Item, Line, MotifUse, NoteNode, Span, StrokeItem, Tree } from '../../grammar/tree';
import type { Passage, PassageEvent } from '../passage/passage';

/** A place in the text: the line it is on, and how far into it. */
export interface Spot {
  readonly line: Line;
  /** Index into `Tree.lines`. */
  readonly index: number;
  /** Counted from the start of the line, as the spans inside a line are. */
  readonly at: number;
}

/** Where `offset` is; one past the end of the text still counts as its last line. */
export function spotAt(tree: Tree, offset: number): Spot {
  let low = 0;
  let high = tree.lines.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((tree.lines[middle]?.start ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  const line = tree.lines[low] as Line;
  return { line, index: low, at: offset - line.start };
}

/** Lifts a span from its line to the file. */
export function inFile(line: Line, span: Span): Span {
  return { start: line.start + span.start, end: line.start + span.end };
}

/** A caret just behind a word still touches it. */
export function touches(span: Span, at: number): boolean {
  return span.start <= at && at <= span.end;
}

/** The one of `spans` that holds `at`; where two touch there, the one that starts there. */
export function spanAt<T extends Span>(spans: readonly T[], at: number): T | undefined {
  return spans.find((span) => span.start <= at && at < span.end) ?? spans.find((span) => span.end === at);
}

/** The items of a line, if it has any. */
export function itemsOf(line: Line): readonly Item[] {
  return line.node.kind === 'music' || line.node.kind === 'motif' ? line.node.items : [];
}

/** Everything from the outermost item at a place of a line down to the single note. */
export function pathAt(line: Line, at: number): readonly (Item | NoteNode)[] {
  const path: (Item | NoteNode)[] = [];
  let items: readonly Item[] = itemsOf(line);
  for (;;) {
    const item: Item | undefined = spanAt(items, at);
    if (!item) return path;
    path.push(item);
    if (item.kind === 'stroke') items = item.items;
    else {
      const note = item.kind === 'event' ? spanAt(item.notes, at) : undefined;
      if (note) path.push(note);
      return path;
    }
  }
}

/** Every event and motif use of a line, strokes opened, in the order written. */
export function* written(items: readonly Item[]): Generator<EventItem | MotifUse> {
  for (const item of items) {
    if (item.kind === 'stroke') yield* written((item as StrokeItem).items);
    else if (item.kind === 'event' || item.kind === 'motif') yield item;
  }
}

/** One event of one passage. */
export interface EventSpot {
  readonly passage: number;
  readonly event: number;
  readonly source: PassageEvent;
}

/** The passage that a line belongs to. */
export function passageOn(passages: readonly Passage[], lineIndex: number): number {
  return passages.findIndex(({ lines }) => lines.first <= lineIndex && lineIndex < lines.end);
}

/** The events written at a place: one, several for a motif that is used there, none elsewhere. */
export function eventsAt(passages: readonly Passage[], { index, at }: Spot): readonly EventSpot[] {
  const passage = passageOn(passages, index);
  const found: EventSpot[] = [];
  passages[passage]?.events.forEach((source, event) => {
    if (source.source.line === index && touches(source.source.span, at)) found.push({ passage, event, source });
  });
  const inside = found.filter(({ source }) => at < source.source.span.end);
  return inside.length ? inside : found;
}

/** Which note of a double stop is at a place; the first where it can't be told. */
export function noteAt(event: PassageEvent, at: number): number {
  const note = spanAt(
    event.source.notes.map(({ span }, index) => ({ ...span, index })),
    at,
  );
  return note?.index ?? 0;
}
