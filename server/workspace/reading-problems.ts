import { lifted, liftedCure } from '../../grammar/at';
import type { SyntaxCode } from '../../grammar/problems';
import type { SyntaxProblem, Tree } from '../../grammar/tree';
import type { PassageCode } from '../passage/problem';
import type { Resolved } from '../passage/resolve';
import type { Certainty, Fix, Problem } from '../rules/rule';

/**
 * Slips whose cure writes the very same thing in the language's spelling, so that no note, duration or mark can be another
 * than was meant: all that a code reports, or what `is` finds among it. Every other cure is a guess, however likely.
 */
const SURE: { readonly [code in SyntaxCode]?: (written: string, cured: string) => boolean } = {
  'colon-missing': () => true,
  'motif-equals': () => true,
  'hints-empty': () => true,
  'duration-dots': () => true,
  // H is another note in another country, and so is a small b.
  'pitch-letter': (written, cured) => written.toUpperCase() === cured.toUpperCase() && !/^b/.test(written),
  accidental: (written, cured) => signs(written) === signs(cured),
  'circle-misplaced': (written, cured) => cured.endsWith('o') && written.slice(0, -1) === cured.slice(0, -1),
  'unknown-hint': (written, cured) => written.replace(/\s+/g, '-') === cured,
  stray: (written) => /^[,;]+$/.test(written),
};

/** Slips between lines whose only cure is most likely what was meant. All others are for a player to decide. */
const LIKELY: ReadonlySet<PassageCode> = new Set<PassageCode>([
  'setting-value',
  'setting-twice',
  'setting-place',
  'unknown-motif',
]);

/** A pitch with its accidental in the signs of this language; only the printed signs are put so, since words depend on the country. */
function signs(pitch: string): string {
  return pitch
    .replaceAll('♯', '#')
    .replaceAll('♭', 'b')
    .replaceAll('𝄪', '##')
    .replaceAll('𝄫', 'bb')
    .replaceAll('♮', '')
    .replace(/x(?=\d)/, '##');
}

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
  const sure = cured !== undefined && SURE[code as SyntaxCode]?.(written, cured);
  return alone(
    cures.map((cure) => liftedCure(cure, lineStart)),
    sure ? 'sure' : 'likely',
  );
}

/** A choice is the editor's to make: of several cures none is likelier than the others. */
function alone(cures: readonly Fix[], certainty: Certainty): readonly Fix[] {
  return cures.length === 1 ? cures.map((cure) => ({ ...cure, certainty })) : cures;
}
