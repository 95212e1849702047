import { lifted, liftedFix } from '../../grammar/at';
import { isSure } from '../../grammar/sure';
import type { SyntaxProblem, Tree } from '../../grammar/tree';
import type { PassageCode } from '../passage/problem';
import type { Resolved } from '../passage/resolve';
import type { Certainty, Problem, RatedFix } from '../rules/rule';

/** Slips between lines whose only fix is most likely what was meant. All others are for a player to decide. */
const LIKELY: ReadonlySet<PassageCode> = new Set<PassageCode>([
  'setting-value',
  'setting-twice',
  'setting-place',
  'unknown-motif',
]);

/** What reading a text found wrong, before anything is played: spelling, and what does not fit together between lines. */
export function readingProblems(tree: Tree, resolved: Resolved): readonly Problem[] {
  return [
    ...spelling(tree),
    ...resolved.problems.map(({ fixes, ...problem }) => ({
      ...problem,
      fixes: LIKELY.has(problem.code) ? alone(fixes, 'likely') : fixes,
    })),
  ];
}

function spelling(tree: Tree): readonly Problem[] {
  return tree.lines.flatMap((line) =>
    line.node.problems.map((problem) => ({
      code: problem.code,
      severity: 'error' as const,
      message: problem.message,
      span: lifted(problem, line.start),
      get fixes() {
        return spellingFixes(tree.text, line.start, problem);
      },
    })),
  );
}

function spellingFixes(text: string, lineStart: number, { code, start, end, fixes }: SyntaxProblem): readonly RatedFix[] {
  const written = text.slice(lineStart + start, lineStart + end);
  const fixed = fixes[0]?.edits[0]?.text;
  const sure = fixed !== undefined && isSure(code, written, fixed);
  return alone(
    fixes.map((fix) => liftedFix(fix, lineStart)),
    sure ? 'sure' : 'likely',
  );
}

/** A choice is the editor's to make: of several fixes none is likelier than the others. */
function alone(fixes: readonly RatedFix[], certainty: Certainty): readonly RatedFix[] {
  return fixes.length === 1 ? fixes.map((fix) => ({ ...fix, certainty })) : fixes;
}
