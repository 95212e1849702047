import type { Span, Tree } from '../../grammar/tree';
import { inFile, itemsOf, pathAt, spanAt, spotAt, touches } from './locate';

/**
 * The spans that a growing selection steps through, innermost first: word, note, chord, stroke, bar, line,
 * passage, file. Each holds the one before it and is larger.
 */
export function selectionSteps(tree: Tree, offset: number): readonly Span[] {
  const spot = spotAt(tree, offset);
  const { line, at, index } = spot;
  const steps: Span[] = [];
  const path = pathAt(line, at);
  const innermost = path.at(-1);
  if (innermost && 'form' in innermost) {
    const hint = innermost.hints && touches(innermost.hints, at) ? innermost.hints : undefined;
    const word = hint && spanAt(hint.hints, at);
    if (word) steps.push(word);
    if (hint) steps.push(hint);
    if (touches(innermost.form, at)) steps.push(innermost.form);
  }
  if (line.node.kind === 'setting') steps.push(...[line.node.key, line.node.value].filter((word) => touches(word, at)));
  if (line.node.kind === 'passage' && touches(line.node.name, at)) steps.push(line.node.name);
  steps.push(...[...path].reverse());
  const bar = barAround(itemsOf(line), at);
  if (bar) steps.push(bar);
  return nested([
    ...steps.map((span) => inFile(line, span)),
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
