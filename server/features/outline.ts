import { absolute } from '../../grammar/at';
import type { Line, Span, Tree } from '../../grammar/tree';
import { t } from '../l10n/translate';
import type { Passage, PassageEvent } from '../passage/passage';
import type { Reading } from './reading';

/** A part of the file that has a name: a passage with its motifs and bars. */
export interface OutlineEntry {
  readonly name: string;
  readonly detail: string;
  readonly kind: 'passage' | 'motif' | 'bar';
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

/** What a bar's entry shows of its text, in characters. */
const GIST = 40;

export function outline({ tree, resolved }: Pick<Reading, 'tree' | 'resolved'>): readonly OutlineEntry[] {
  const within = (first: number, last: number, passages: readonly Passage[]) =>
    [...tree.lines.slice(first, last + 1).flatMap(motifEntry), ...passages.flatMap((passage) => barEntries(tree, passage))].sort(
      (a, b) => a.span.start - b.span.start,
    );
  const parts = sections(tree);
  const headless = parts[0]?.first ?? tree.lines.length;
  const entries: OutlineEntry[] = within(
    0,
    headless - 1,
    resolved.passages.filter(({ lines }) => lines.first < headless),
  );
  const headed = new Map(resolved.passages.map((passage) => [passage.lines.first, passage]));
  for (const { first, last } of parts) {
    const head = tree.lines[first] as Line;
    if (head.node.kind !== 'passage') continue;
    const passage = headed.get(first);
    const children = within(first + 1, last, passage ? [passage] : []);
    // A bar of rest has no note to lead to, yet is one.
    const count = passage?.bars.length ?? 0;
    entries.push({
      name: head.node.name.text || t('unnamed passage'),
      detail: count === 1 ? t('1 bar') : t('{count} bars', { count }),
      kind: 'passage',
      span: { start: head.start, end: (tree.lines[last] as Line).end },
      selection: head.node.name.text ? absolute(head, head.node.name) : { start: head.start, end: head.end },
      children,
    });
  }
  return entries;
}

/** Bars by the numbers that players count, each from its first note to its last. */
function barEntries(tree: Tree, { events }: Passage): readonly OutlineEntry[] {
  const entries: OutlineEntry[] = [];
  for (let from = 0; from < events.length; ) {
    const { bar } = events[from]!;
    let to = from;
    while (events[to + 1]?.bar === bar) to++;
    const [first, last] = [placeOf(tree, events[from]!), placeOf(tree, events[to]!)];
    // What a sign sends back to is played again, but stands where it stood.
    const span = { start: Math.min(first.start, last.start), end: Math.max(first.end, last.end) };
    const line = tree.lines[events[from]!.source.line] as Line;
    const text = tree.text.slice(first.start, Math.min(Math.max(first.end, last.end), line.end)).trimEnd();
    const detail = text.length > GIST ? `${text.slice(0, GIST - 1)}…` : text;
    entries.push({ name: t('bar {bar}', { bar }), detail, kind: 'bar', span, selection: first, children: [] });
    from = to + 1;
  }
  return entries;
}

function placeOf(tree: Tree, { source }: PassageEvent): Span {
  return absolute(tree.lines[source.line] as Line, source.span);
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
