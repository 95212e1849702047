import type { Tree } from '../../grammar/tree';
import type { PassageCode } from '../passage/problem';
import type { Resolved } from '../passage/resolve';
import type { Fix, Problem } from '../rules/rule';

/**
 * Problems of reading whose only cure may be applied unasked, as that of a spelling mistake may: it leaves no doubt of
 * what was meant, and no note sounds otherwise than before.
 */
const PLAIN_SLIPS: ReadonlySet<PassageCode> = new Set<PassageCode>(['setting-value', 'setting-twice', 'unknown-motif']);

/** What reading a text found wrong, before anything is played: spelling, and what does not fit together between lines. */
export function readingProblems(tree: Tree, resolved: Resolved): readonly Problem[] {
  return [
    ...spelling(tree),
    ...resolved.problems.map(({ cures, ...problem }) => ({ ...problem, fixes: fixes(cures, PLAIN_SLIPS.has(problem.code)) })),
  ];
}

function spelling(tree: Tree): readonly Problem[] {
  return tree.lines.flatMap((line) =>
    line.node.problems.map(({ code, message, start, end, cures }) => {
      const span = { start: line.start + start, end: line.start + end };
      const written = cures.map(({ title, text }) => ({ title, edits: [{ span, text }] }));
      return { code, severity: 'error' as const, message, span, fixes: fixes(written, true) };
    }),
  );
}

/** A choice is the editor's to make, so of several cures none is safe. */
function fixes(cures: readonly Fix[], plain: boolean): readonly Fix[] {
  return plain && cures.length === 1 ? cures.map((cure) => ({ ...cure, safe: true })) : cures;
}
