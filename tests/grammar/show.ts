import { expect } from 'vitest';
import { parse } from '../../grammar/parse';
import type { LineNode, SyntaxProblem } from '../../grammar/tree';

/**
 * A node as nested lists with the text that its span covers in place of the numbers: a wrong span shows as a
 * wrong text. Members that are numbers or words stay as they are.
 */
export function show(value: unknown, line: string): unknown {
  if (Array.isArray(value)) return value.map((piece) => show(piece, line));
  if (typeof value !== 'object' || value === null) return value;
  const { start, end, ...rest } = value as Record<string, unknown>;
  const shown: Record<string, unknown> = {};
  if (typeof start === 'number' && typeof end === 'number') shown.at = line.slice(start, end);
  for (const [key, member] of Object.entries(rest)) {
    if (key === 'problems' && (member as unknown[]).length === 0) continue;
    // A word's text must be what its span covers, so it need not be written twice.
    if (key === 'text' && 'at' in shown) expect(member).toBe(shown.at);
    else shown[key] = show(member, line);
  }
  const keys = Object.keys(shown);
  return keys.length === 1 && keys[0] === 'at' ? shown.at : shown;
}

/** Reads one line and shows it. */
export function shown(line: string): unknown {
  return show(only(line), line);
}

export function only(line: string): LineNode {
  const { lines } = parse(line);
  expect(lines).toHaveLength(1);
  return lines[0]!.node;
}

export function problemsOf(text: string): (SyntaxProblem & { readonly from: number; readonly to: number })[] {
  return parse(text).lines.flatMap(({ start, node }) =>
    node.problems.map((problem) => ({ ...problem, from: start + problem.start, to: start + problem.end })),
  );
}
