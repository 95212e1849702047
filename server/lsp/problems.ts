import type { Diagnostic } from 'vscode-languageserver-protocol';
import type { Problem } from '../rules/rule';
import { SEVERITY } from './codes';
import type { Places } from './places';

/**
 * A problem as the protocol says it. `pages` is where the rules' pages are, if the client told; what is `unfinished` is being typed
 * and no error yet.
 */
export function toDiagnostic(problem: Problem, places: Places, pages?: string, unfinished = false): Diagnostic {
  return {
    range: places.range(problem.span),
    severity: SEVERITY[unfinished ? 'hint' : problem.severity],
    code: problem.code,
    ...(pages && { codeDescription: { href: `${pages}/${problem.code}.md` } }),
    source: 'passagework',
    message: problem.message,
    ...(problem.related?.length && {
      relatedInformation: problem.related.map(({ span, message }) => ({
        location: { uri: places.uri, range: places.range(span) },
        message,
      })),
    }),
  };
}
