import { readLine } from './line';
import type { Line, LineNode, LineOf, Tree, Word } from './tree';

/**
 * Reads a whole file. Any text gives a tree; what is wrong with it stands in the `problems` of its lines.
 *
 * `previous` is an earlier tree of the same file: nodes of lines whose text is unchanged are taken over as
 * the same objects, so the work is that of the edit. The result equals a reading from scratch.
 */
export function parse(text: string, previous?: Tree): Tree {
  if (!previous) return { text, lines: linesOf(text, readLine) };
  if (previous.text === text) return previous;
  const old = previous.lines;
  const head = keptAtStart(text, previous);
  const tail = keptAtEnd(text, previous, head);
  const shift = text.length - previous.text.length;

  const known = new Map<string, LineNode>();
  for (const line of old.slice(head, old.length - tail)) known.set(previous.text.slice(line.start, line.end), line.node);
  const from = old[head]?.start ?? 0;
  const firstOfTail = tail > 0 ? old[old.length - tail] : undefined;
  const to = firstOfTail ? firstOfTail.start + shift : text.length;

  const lines = old.slice(0, head);
  for (const line of readLines(text, readLine, { from, to, toEnd: !firstOfTail }, known)) lines.push(line);
  for (const line of old.slice(old.length - tail, old.length)) {
    lines.push(shift === 0 ? line : { start: line.start + shift, end: line.end + shift, node: line.node });
  }
  return { text, lines };
}

/** All lines of a text, each read by itself; lines of equal text share one node. */
export function linesOf<N>(text: string, read: (line: string) => N): LineOf<N>[] {
  return readLines(text, read, { from: 0, to: text.length, toEnd: true }, new Map());
}

/** The values that a text gives a setting, in order. Only lines that begin with its name are read. */
export function settingValues(text: string, key: string): Word[] {
  const lines = text.match(new RegExp(`^[^\\S\\r\\n]*${key}\\s*:.*$`, 'gm')) ?? [];
  return lines.flatMap((line) => {
    const node = readLine(line);
    return node.kind === 'setting' && node.key.text === key ? [node.value] : [];
  });
}

/** From a start of a line to another, or to the end of the text if `toEnd`. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly toEnd: boolean;
}

function readLines<N>(text: string, read: (line: string) => N, { from, to, toEnd }: Stretch, known: Map<string, N>): LineOf<N>[] {
  const lines: LineOf<N>[] = [];
  let start = from;
  while (toEnd ? start <= to : start < to) {
    const end = endOfLine(text, start);
    const line = text.slice(start, end);
    let node = known.get(line);
    if (!node) {
      const own = detached(line);
      node = read(own);
      known.set(own, node);
    }
    lines.push({ start, end, node });
    if (end === text.length) break;
    start = end + (text[end] === '\r' && text[end + 1] === '\n' ? 2 : 1);
  }
  return lines;
}

/**
 * A copy of the line that shares no memory with the file: engines keep a whole string alive for a slice of it,
 * so nodes that outlive an edit would otherwise hold on to every version of the text they were read from.
 */
function detached(line: string): string {
  return ` ${line}`.slice(1);
}

/** How a text breaks its lines, by the first break in it. */
export function lineBreakOf(text: string): string {
  return /\r\n|\r|\n/.exec(text)?.[0] ?? '\n';
}

const LINE_BREAK = /\r|\n/g;

function endOfLine(text: string, start: number): number {
  LINE_BREAK.lastIndex = start;
  return LINE_BREAK.exec(text)?.index ?? text.length;
}

/** How many first lines of `previous` stand in `text` as they were, line break included. */
function keptAtStart(text: string, previous: Tree): number {
  const same = samePrefix(text, previous.text);
  const { lines } = previous;
  // A line is safe if the next one begins inside the part that is the same: then its break can't have become another.
  let low = 0;
  let high = lines.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((lines[middle] as Line).start < same) low = middle;
    else high = middle - 1;
  }
  return Math.max(low, 0);
}

/** How many last lines of `previous` stand in `text` as they were, not counting the first `head`. */
function keptAtEnd(text: string, previous: Tree, head: number): number {
  const { lines } = previous;
  const most = Math.min(text.length, previous.text.length) - (lines[head]?.start ?? 0);
  const same = sameSuffix(text, previous.text, most);
  // The break before a line must be in the part that is the same, so that the line begins there in both.
  const begin = previous.text.length - same;
  let low = head;
  let high = lines.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((lines[middle] as Line).start > begin) high = middle;
    else low = middle + 1;
  }
  return lines.length - low;
}

const BLOCK = 4096;

function samePrefix(a: string, b: string): number {
  const most = Math.min(a.length, b.length);
  let at = 0;
  while (at + BLOCK <= most && a.slice(at, at + BLOCK) === b.slice(at, at + BLOCK)) at += BLOCK;
  while (at < most && a.charCodeAt(at) === b.charCodeAt(at)) at++;
  return at;
}

function sameSuffix(a: string, b: string, most: number): number {
  let count = 0;
  const block = (text: string): string => text.slice(text.length - count - BLOCK, text.length - count);
  while (count + BLOCK <= most && block(a) === block(b)) count += BLOCK;
  while (count < most && a.charCodeAt(a.length - count - 1) === b.charCodeAt(b.length - count - 1)) count++;
  return count;
}
