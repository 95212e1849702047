import type { LineNode, Tree } from '../../grammar/tree';

/** How much of a list an edit left alone: so many entries from the front, and so many of the others from the back. */
export interface KeptEnds {
  readonly head: number;
  readonly tail: number;
}

/** @param same whether an entry, by its index now, is the one that stood at an index before */
export function keptEnds(length: number, oldLength: number, same: (now: number, was: number) => boolean): KeptEnds {
  const most = Math.min(length, oldLength);
  let head = 0;
  while (head < most && same(head, head)) head++;
  let tail = 0;
  while (tail < most - head && same(length - 1 - tail, oldLength - 1 - tail)) tail++;
  return { head, tail };
}

/**
 * What was kept of the lines of a tree, found again by the lines of the tree after an edit. Lines equal from
 * the top keep their index, lines equal from the bottom have moved by the difference in length, and of
 * those between each takes the first not yet taken that has its very node.
 */
export function alignment<T>(before: Tree, now: Tree, kept: readonly (T | undefined)[]): (line: number) => T | undefined {
  const [old, lines] = [before.lines, now.lines];
  const same = (line: number, was: number) => old[was]?.node === lines[line]?.node;
  const { head: top, tail: bottom } = keptEnds(lines.length, old.length, same);
  const moved = lines.length - old.length;
  const between = new Map<LineNode, number[]>();
  for (let line = old.length - bottom - 1; line >= top; line--) {
    const node = old[line]?.node;
    if (!node || !kept[line]) continue;
    const alike = between.get(node);
    if (alike) alike.push(line);
    else between.set(node, [line]);
  }
  return (line) => {
    if (line < top) return kept[line];
    if (line >= lines.length - bottom) return kept[line - moved];
    const node = lines[line]?.node;
    return kept[(node && between.get(node)?.pop()) ?? -1];
  };
}
