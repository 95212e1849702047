import fc from 'fast-check';
import { expect } from 'vitest';
import { formatPassage, formatted } from '../../grammar/format';
import { parse } from '../../grammar/parse';
import { print, printLine } from '../../grammar/print';
import type { Tree } from '../../grammar/tree';
import { edited } from '../support/caret';
import { anyText, file, line } from './generate';

/** A node without its places, spaces and problems: what was written. */
function written(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(written);
  if (typeof value !== 'object' || value === null) return value;
  const { start: _start, end: _end, problems: _problems, ...rest } = value as Record<string, unknown>;
  if (typeof rest.unreadable === 'string') rest.unreadable = rest.unreadable.replace(/\s+/g, '');
  return Object.fromEntries(Object.entries(rest).map(([key, member]) => [key, written(member)]));
}

/** What a value says is settled by its text, so a node to be printed has no parts. */
function withoutParts(node: unknown): unknown {
  const { parts: _parts, ...rest } = node as Record<string, unknown>;
  return rest;
}

const nodesOf = (tree: Tree) => tree.lines.map(({ node }) => written(node));
/** The same but for the spaces in values and check comments. */
const tokensOf = (tree: Tree) =>
  tree.lines.map(({ node }) => {
    const bare = (text: string) => text.replace(/\s+/g, '');
    const value = 'value' in node && node.parts && !('text' in node.parts) ? { value: bare(node.value.text) } : {};
    const comment = node.comment?.check ? { comment: { ...node.comment, text: bare(node.comment.text) } } : {};
    return written({ ...node, ...value, ...comment });
  });

/** Every span lies inside the one it belongs to, and pieces of one list stand in order without overlap. */
function misplaced(value: unknown, from: number, to: number, lineEnd = to): string | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { start = from, end = to } = value as { start?: number; end?: number };
  if (start < from || end > to || start > end) return `${start}-${end} is not inside ${from}-${to}`;
  for (const [key, member] of Object.entries(value)) {
    if (Array.isArray(member) && key !== 'problems') {
      const pieces = member as { start: number; end: number }[];
      for (let i = 1; i < pieces.length; i++) if (pieces[i]!.start < pieces[i - 1]!.end) return `${key}[${i}] is out of order`;
    }
    const wrong = key === 'fixes' ? misplaced(member, 0, lineEnd, lineEnd) : misplaced(member, start, end, lineEnd);
    if (wrong) return `${key}: ${wrong}`;
  }
  return undefined;
}

/** The law that takes as long to try as all others together. */
export const EDITS = 'after any edit, reading with the tree before equals reading from scratch';

/** What holds for every text, by name; run few times on every save and many times by `npm run fuzz`. */
export const LAWS: Readonly<Record<string, (runs: number, seed: number) => void>> = {
  'any text gives lines that cover it, spans inside their bounds, and problems with a place': (runs, seed) => {
    fc.assert(
      fc.property(anyText, (text) => {
        const tree = parse(text);
        expect(tree.text).toBe(text);
        let at = 0;
        for (const { start, end, node } of tree.lines) {
          expect(text.slice(at, start)).toMatch(at === 0 && start === 0 ? /^$/ : /^(?:\n|\r|\r\n)$/);
          expect(text.slice(start, end)).not.toMatch(/[\r\n]/);
          at = end;
          expect(misplaced(node, 0, end - start)).toBeUndefined();
          expect(node.problems.filter((problem) => problem.end <= problem.start)).toEqual([]);
        }
        expect(at).toBe(text.length);
      }),
      { seed, numRuns: runs },
    );
  },

  'what is printed reads as what was meant': (runs, seed) => {
    fc.assert(
      fc.property(line, (node) => {
        const { lines } = parse(printLine(node));
        expect(lines).toHaveLength(1);
        // Strokes in strokes are reported, and read all the same.
        expect(lines[0]!.node.problems.filter(({ code }) => code !== 'nested-stroke')).toEqual([]);
        expect(withoutParts(written(lines[0]!.node))).toEqual(written(node));
      }),
      { seed, numRuns: runs },
    );
  },

  'print then read gives the same tree for any text without problems, and printing again the same text': (runs, seed) => {
    let clean = 0;
    fc.assert(
      fc.property(fc.oneof(anyText, file), (text) => {
        const tree = parse(text);
        if (tree.lines.some(({ node }) => node.problems.length > 0)) return;
        clean++;
        const again = parse(print(tree));
        expect(nodesOf(again)).toEqual(nodesOf(tree));
        expect(print(again)).toBe(print(tree));
      }),
      { seed, numRuns: runs },
    );
    expect(clean).toBeGreaterThan(runs / 5);
  },

  'formatting changes spaces only, keeps the tree with its comments, and does nothing the second time': (runs, seed) => {
    let changed = 0;
    fc.assert(
      fc.property(anyText, (text) => {
        const tree = parse(text);
        const after = formatted(tree);
        if (after !== text) changed++;
        // Line breaks stay as they are, and so does everything that is no space.
        const bones = (all: string) => all.replace(/[^\S\r\n]+/g, '');
        expect(bones(after)).toBe(bones(text));
        const again = parse(after);
        expect(tokensOf(again)).toEqual(tokensOf(tree));
        expect(again.lines.map(({ node }) => node.problems.map(({ code }) => code))).toEqual(
          tree.lines.map(({ node }) => node.problems.map(({ code }) => code)),
        );
        expect(formatPassage(again)).toEqual([]);
        expect(edited(text, formatPassage(tree))).toBe(after);
      }),
      { seed, numRuns: runs },
    );
    expect(changed).toBeGreaterThan(runs / 5);
  },

  [EDITS]: (runs, seed) => {
    const piece = fc.oneof(anyText, fc.constantFrom('', '\n', '\r', ' ', 'D5', '\r\n', '//'));
    const edit = fc.tuple(fc.nat(), fc.nat({ max: 40 }), piece);
    fc.assert(
      fc.property(fc.oneof(anyText, file), fc.array(edit, { minLength: 1, maxLength: 6 }), (first, edits) => {
        let tree = parse(first);
        for (const [where, length, inserted] of edits) {
          const at = where % (tree.text.length + 1);
          const text = tree.text.slice(0, at) + inserted + tree.text.slice(at + length);
          const next = parse(text, tree);
          expect(next).toEqual(parse(text));
          tree = next;
        }
      }),
      { seed, numRuns: runs },
    );
  },
};
