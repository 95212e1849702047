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
