import { absolute, covering, covers, pathAt } from '../../grammar/at';
import type { Span, Tree } from '../../grammar/tree';
import { itemsOf } from '../../grammar/walk';

/**
 * The spans that a growing selection steps through, innermost first: word, note, chord, stroke, bar, line,
 * passage, file. Each holds the one before it and is larger.
 */
export function selectionSteps(tree: Tree, offset: number): readonly Span[] {
  const { line, column: at, index, items, note, hints } = pathAt(tree, offset);
  const steps: Span[] = [];
  const hint = hints && covering(hints.hints, at);
  if (hint) steps.push(hint);
  if (hints) steps.push(hints);
  if (note && covers(note.form, at)) steps.push(note.form);
  if (note) steps.push(note);
  if (line.node.kind === 'setting') steps.push(...[line.node.key, line.node.value].filter((word) => covers(word, at)));
  if (line.node.kind === 'passage' && covers(line.node.name, at)) steps.push(line.node.name);
  steps.push(...[...items].reverse());
  const bar = barAround(itemsOf(line.node), at);
  if (bar) steps.push(bar);
  return nested([
    ...steps.map((span) => absolute(line, span)),
    { start: line.start, end: line.end },
    ...passageAround(tree, index),
    { start: 0, end: tree.text.length },
  ]);
}

function barAround(items: readonly (Span & { readonly kind: string })[], at: number): Span | undefined {
  const bars = items.filter((item) => item.kind === 'bar');
  const music = items.filter((item) => item.kind !== 'bar');
  const opening = bars.filter((bar) => bar.end <= at).at(-1)?.end ?? 0;
  const closing = bars.find((bar) => bar.start >= at)?.start ?? Number.POSITIVE_INFINITY;
  const inside = music.filter((item) => item.start >= opening && item.end <= closing);
  const [first] = inside;
  const last = inside.at(-1);
  return first && last ? { start: first.start, end: last.end } : undefined;
}

function passageAround(tree: Tree, index: number): Span[] {
  const isHead = (at: number) => tree.lines[at]?.node.kind === 'passage';
  let first = index;
  while (first > 0 && !isHead(first)) first--;
  let last = index;
  while (last + 1 < tree.lines.length && !isHead(last + 1)) last++;
  return [{ start: tree.lines[first]?.start ?? 0, end: tree.lines[last]?.end ?? tree.text.length }];
}

/** Only the spans that really grow. */
function nested(spans: readonly Span[]): readonly Span[] {
  const kept: Span[] = [];
  for (const { start, end } of spans) {
    const inner = kept.at(-1);
    const holds = !inner || (start <= inner.start && end >= inner.end);
    const grows = !inner || start < inner.start || end > inner.end;
    if (holds && grows && end > start) kept.push({ start, end });
  }
  return kept;
}
