import { type Diagnostic, DiagnosticSeverity } from 'vscode-languageserver';
import type { Problem, Severity } from '../rules/rule';
import type { Places } from './places';

const SEVERITIES: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

/**
 * A problem as the protocol says it. `pages` is where the rules' pages are, if the client told; what is `unfinished` is being typed
 * and no error yet.
 */
export function toDiagnostic(problem: Problem, places: Places, pages?: string, unfinished = false): Diagnostic {
  return {
    range: places.range(problem.span),
    severity: SEVERITIES[unfinished ? 'hint' : problem.severity],
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
