import type { EventItem, Item, Line, LineNode, MotifUse, StrokeItem, Tree } from './tree';

/** Calls `visit` for every item in the order of the text, strokes and groups before what is in them. */
export function walkItems(items: readonly Item[], visit: (item: Item, strokes: readonly StrokeItem[]) => void): void {
  walkInside(items, visit, []);
}

function walkInside(
  items: readonly Item[],
  visit: (item: Item, strokes: readonly StrokeItem[]) => void,
  strokes: readonly StrokeItem[],
): void {
  for (const item of items) {
    visit(item, strokes);
    if (item.kind === 'stroke') walkInside(item.items, visit, [...strokes, item]);
    else if (item.kind === 'group') walkInside(item.items, visit, strokes);
  }
}

/** The items of a line; none for lines that are neither music nor a motif. */
export function itemsOf(node: LineNode): readonly Item[] {
  return node.kind === 'music' || node.kind === 'motif' ? node.items : [];
}

/** All events of these items, those in strokes included. */
export function eventsOf(items: readonly Item[]): EventItem[] {
  const events: EventItem[] = [];
  walkItems(items, (item) => {
    if (item.kind === 'event') events.push(item);
  });
  return events;
}

/** All uses of motifs in these items. */
export function motifUsesOf(items: readonly Item[]): MotifUse[] {
  const uses: MotifUse[] = [];
  walkItems(items, (item) => {
    if (item.kind === 'motif') uses.push(item);
  });
  return uses;
}

/** Calls `visit` for every item of the file with its line. */
export function walkTree(tree: Tree, visit: (item: Item, line: Line, strokes: readonly StrokeItem[]) => void): void {
  for (const line of tree.lines) walkItems(itemsOf(line.node), (item, strokes) => visit(item, line, strokes));
}
