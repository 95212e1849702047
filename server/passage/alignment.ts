import type { LineNode, Tree } from '../../grammar/tree';

/**
 * What was kept of the lines of a tree, found again by the lines of the tree after an edit. Lines equal from
 * the top keep their index, lines equal from the bottom have moved by the difference in length, and of
 * those between each takes the first not yet taken that has its very node.
 */
export function alignment<T>(before: Tree, now: Tree, kept: readonly (T | undefined)[]): (line: number) => T | undefined {
  const [old, lines] = [before.lines, now.lines];
  const most = Math.min(old.length, lines.length);
  let top = 0;
  while (top < most && old[top]?.node === lines[top]?.node) top++;
  let bottom = 0;
  while (bottom < most - top && old[old.length - 1 - bottom]?.node === lines[lines.length - 1 - bottom]?.node) bottom++;
  const moved = lines.length - old.length;
  const between = new Map<LineNode, number[]>();
  for (let line = old.length - bottom - 1; line >= top; line--) {
    const node = old[line]?.node;
    if (!node || !kept[line]) continue;
    const same = between.get(node);
    if (same) same.push(line);
    else between.set(node, [line]);
  }
  return (line) => {
    if (line < top) return kept[line];
    if (line >= lines.length - bottom) return kept[line - moved];
    const node = lines[line]?.node;
    return kept[(node && between.get(node)?.pop()) ?? -1];
  };
}
