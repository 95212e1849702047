import { createHash } from 'node:crypto';
import type { Problem } from '../rules/rule';
import { diagnosticOf } from './json';
import { type Lined, placeOf } from './place';
import type { Diagnostic, Place } from './report';

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
  const seen = new Map<string, number>();
  return problems.map((problem) => {
    const diagnostic = diagnosticOf(tree, problem, file);
    const line = tree.lines[diagnostic.line - 1];
    const words = line ? tree.text.slice(line.start, line.end).trim().replace(/\s+/g, ' ') : '';
    const key = `${problem.code}\n${words}`;
    const nth = seen.get(key) ?? 0;
    seen.set(key, nth + 1);
    return {
      diagnostic,
      fingerprint: createHash('sha256').update(`${key}\n${nth}`).digest('hex').slice(0, 16),
      fixes: fixesOf(tree, problem),
    };
  });
}

function fixesOf(tree: Lined, problem: Problem): Finding['fixes'] {
  return problem.fixes.map(({ title, edits }) => ({
    title,
    edits: edits.map(({ span, text }) => ({ ...placeOf(tree, span), text })),
  }));
}
