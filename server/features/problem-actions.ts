import { pathAt } from '../../grammar/at';
import { lineBreakOf } from '../../grammar/parse';
import type { Edit, Span, Tree } from '../../grammar/tree';
import { t } from '../l10n/translate';
import { CODES } from '../rules/check';
import type { Problem } from '../rules/rule';
import { fixesToApply } from '../rules/unasked';
import type { Action } from './action';
import type { Reading } from './reading';

/** Problems whose fixes are listed for one place: where all of a long file is selected, nobody reads further. */
const MOST_PROBLEMS = 50;

/** The fixes of every problem at a place, and for checks that the editor disagrees with, the comments that silence them. */
export function* problemActions({ tree, problems }: Reading, span: Span): Generator<Action, void> {
  const meets = (problem: Problem) => problem.span.start <= span.end && span.start <= problem.span.end;
  const here = problems.filter(meets).slice(0, MOST_PROBLEMS);
  for (const problem of here) {
    for (const [index, { title, edits, certainty }] of problem.fixes.entries())
      yield { title, kind: 'fix', edits, problem, ...(index === 0 && certainty && { preferred: true }) };
  }
  for (const problem of here) yield* silencing(tree, problem);
}

/** Every fix that leaves no doubt, all at once: the same that `check --fix` applies. */
export function fixAllAction({ problems }: Reading): readonly Action[] {
  const edits = fixesToApply(problems, 'sure').flatMap((fix) => fix.edits);
  return [{ title: t('Fix everything that is safe to fix'), kind: 'fixAll', edits }];
}

function silencing(tree: Tree, problem: Problem): readonly Action[] {
  const { code, severity, span } = problem;
  // An error of spelling can't be wished away: the note is not there.
  if (!CODES.includes(code) || severity === 'error') return [];
  return [
    { title: t('Turn “{code}” off for this line', { code }), kind: 'fix', edits: [lineComment(tree, span.start, code)], problem },
    { title: t('Turn “{code}” off for this file', { code }), kind: 'fix', edits: [fileComment(tree, code)], problem },
  ];
}

function lineComment(tree: Tree, offset: number, code: string): Edit {
  const { line } = pathAt(tree, offset);
  const { comment } = line.node;
  const at = (place: number, text: string): Edit => ({ span: { start: place, end: place }, text });
  if (!comment) return at(line.end, `  // check: ${code} off`);
  if (comment.check && !comment.check.file) return at(line.end, `, ${code} off`);
  return at(line.start, `// check: ${code} off${lineBreakOf(tree.text)}`);
}

function fileComment(tree: Tree, code: string): Edit {
  return {
    span: { start: 0, end: 0 },
    text: `// check file: ${code} off${lineBreakOf(tree.text)}`,
  };
}
