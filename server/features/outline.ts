import { absolute } from '../../grammar/at';
import type { Line, Span, Tree } from '../../grammar/tree';

/** A part of the file that has a name: a passage with the motifs defined in it. */
export interface OutlineEntry {
  readonly name: string;
  readonly detail: string;
  readonly kind: 'passage' | 'motif';
  readonly span: Span;
  /** The name itself. */
  readonly selection: Span;
  readonly children: readonly OutlineEntry[];
}

/** A stretch of whole lines that can be folded away; indices into `Tree.lines`, `last` included. */
export interface Fold {
  readonly first: number;
  readonly last: number;
  readonly kind: 'passage' | 'comment';
}

export function outline(tree: Tree): readonly OutlineEntry[] {
  const entries: OutlineEntry[] = tree.lines.slice(0, sections(tree)[0]?.first ?? tree.lines.length).flatMap(motifEntry);
  for (const { first, last } of sections(tree)) {
    const head = tree.lines[first] as Line;
    if (head.node.kind !== 'passage') continue;
    const inside = tree.lines.slice(first + 1, last + 1);
    const bars = inside.reduce((sum, line) => sum + barsOn(line), 0);
    entries.push({
      name: head.node.name.text || 'unnamed passage',
      detail: bars === 1 ? '1 bar' : `${bars} bars`,
      kind: 'passage',
      span: { start: head.start, end: (tree.lines[last] as Line).end },
      selection: head.node.name.text ? absolute(head, head.node.name) : { start: head.start, end: head.end },
      children: inside.flatMap(motifEntry),
    });
  }
  return entries;
}

/** Passages, and comments of more than one line. */
export function folds(tree: Tree): readonly Fold[] {
  const found: Fold[] = sections(tree)
    .filter(({ first, last }) => last > first)
    .map((section) => ({ ...section, kind: 'passage' }));
  let from: number | undefined;
  for (let index = 0; index <= tree.lines.length; index++) {
    const node = tree.lines[index]?.node;
    if (node?.kind === 'blank' && node.comment) from ??= index;
    else {
      if (from !== undefined && index - from > 1) found.push({ first: from, last: index - 1, kind: 'comment' });
      from = undefined;
    }
  }
  return found.sort((a, b) => a.first - b.first);
}

/** From each `passage:` line to the last line with something on it before the next. */
function sections(tree: Tree): readonly { readonly first: number; readonly last: number }[] {
  const heads = tree.lines.flatMap((line, index) => (line.node.kind === 'passage' ? [index] : []));
  return heads.map((first, at) => {
    let last = (heads[at + 1] ?? tree.lines.length) - 1;
    while (last > first && isEmpty(tree.lines[last])) last--;
    return { first, last };
  });
}

function isEmpty(line: Line | undefined): boolean {
  return line?.node.kind === 'blank' && !line.node.comment;
}

function motifEntry(line: Line): OutlineEntry[] {
  if (line.node.kind !== 'motif' || !line.node.name.text) return [];
  const { name } = line.node;
  const span = { start: line.start, end: line.end };
  return [{ name: name.text, detail: 'motif', kind: 'motif', span, selection: absolute(line, name), children: [] }];
}

function barsOn(line: Line): number {
  return line.node.kind === 'music' ? line.node.items.filter((item) => item.kind === 'bar').length : 0;
}
