import type { Problem } from '../rules/rule';
import { FINGERPRINT_DIGITS, fingerprintSubjects, type Lined } from '../workspace/baseline';
import { diagnosticOf } from './json';
import { placeOf } from './place';
import type { Diagnostic, Place } from './report';
import { sha256 } from './sha256';

/** A diagnostic with what SARIF and a baseline need besides; plain data, so it can come from another thread. */
export interface Finding {
  readonly diagnostic: Diagnostic;
  /** The same for the same problem on the same words of a line, wherever that line has moved to. */
  readonly fingerprint: string;
  readonly fixes: readonly { readonly title: string; readonly edits: readonly (Place & { readonly text: string })[] }[];
}

export function findingsOf(
  { tree, problems }: { readonly tree: Lined; readonly problems: readonly Problem[] },
  file?: string,
): readonly Finding[] {
  const subjects = fingerprintSubjects(tree, problems);
  return problems.map((problem, at) => ({
    diagnostic: diagnosticOf(tree, problem, file),
    fingerprint: sha256().update(subjects[at]!).digest('hex').slice(0, FINGERPRINT_DIGITS),
    fixes: fixesOf(tree, problem),
  }));
}

function fixesOf(tree: Lined, problem: Problem): Finding['fixes'] {
  return problem.fixes.map(({ title, edits }) => ({
    title,
    edits: edits.map(({ span, text }) => ({ ...placeOf(tree, span), text })),
  }));
}
