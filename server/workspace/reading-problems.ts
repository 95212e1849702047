import { lifted, liftedCure } from '../../grammar/at';
import { isSure } from '../../grammar/sure';
import type { SyntaxProblem, Tree } from '../../grammar/tree';
import type { PassageCode } from '../passage/problem';
import type { Resolved } from '../passage/resolve';
import type { Certainty, Fix, Problem } from '../rules/rule';

/** Slips between lines whose only cure is most likely what was meant. All others are for a player to decide. */
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
    ...resolved.problems.map(({ cures, ...problem }) => ({
      ...problem,
      fixes: LIKELY.has(problem.code) ? alone(cures, 'likely') : cures,
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

function spellingFixes(text: string, lineStart: number, { code, start, end, cures }: SyntaxProblem): readonly Fix[] {
  const written = text.slice(lineStart + start, lineStart + end);
  const cured = cures[0]?.edits[0]?.text;
  const sure = cured !== undefined && isSure(code, written, cured);
  return alone(
    cures.map((cure) => liftedCure(cure, lineStart)),
    sure ? 'sure' : 'likely',
  );
}

/** A choice is the editor's to make: of several cures none is likelier than the others. */
function alone(cures: readonly Fix[], certainty: Certainty): readonly Fix[] {
  return cures.length === 1 ? cures.map((cure) => ({ ...cure, certainty })) : cures;
}
