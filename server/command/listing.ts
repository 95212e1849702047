import type { Paint } from './paint';
import type { Diagnostic } from './report';
import { visible, visibleWithin } from './visible';

export const SEVERITIES = ['error', 'warning', 'information', 'hint'] as const;
export type Severity = (typeof SEVERITIES)[number];

/** Findings as a terminal shows them: place, severity, code, message, the line itself with the place marked, related places, and the fixes. */
export function listing(diagnostics: readonly Diagnostic[], textOf: (file: string | undefined) => string, paint: Paint): string {
  const lines = new Map<string | undefined, readonly string[]>();
  return diagnostics
    .map((diagnostic) => {
      const { file } = diagnostic;
      if (!lines.has(file)) lines.set(file, textOf(file).split(/\r\n|\r|\n/));
      return `${entry(diagnostic, lines.get(file)?.[diagnostic.line - 1] ?? '', paint)}\n`;
    })
    .join('\n');
}

function entry(diagnostic: Diagnostic, written: string, paint: Paint): string {
  const { file, line, column, severity, code, message, related = [], fixes } = visibleWithin(diagnostic);
  const colour = severity === 'error' ? paint.red : severity === 'warning' ? paint.yellow : paint.cyan;
  const place = `${file ?? 'standard input'}:${line}:${column}`;
  return [
    `${paint.bold(place)} ${colour(severity)} ${code}: ${message}`,
    ...frame(diagnostic, visible(written), colour, paint),
    ...related.map((at) => paint.dim(`      ${at.line}:${at.column}: ${at.message}`)),
    ...fixes.map((title) => paint.dim(`      fix: ${title}`)),
  ].join('\n');
}

/** Longest stretch of a line that is shown: a line of megabytes must not fill the terminal. */
const SHOWN = 120;

function frame(diagnostic: Diagnostic, written: string, colour: (text: string) => string, paint: Paint): string[] {
  if (!written.trim()) return [];
  const at = diagnostic.column - 1;
  const from = at > SHOWN - 20 ? at - 20 : 0;
  const shown = written.slice(from, from + SHOWN);
  const end = diagnostic.endLine === diagnostic.line ? diagnostic.endColumn - 1 : written.length;
  const length = Math.max(1, Math.min(end, from + SHOWN) - at);
  // Tabs stay tabs, so the mark stands under what it marks.
  const gap = shown.slice(0, at - from).replace(/[^\t]/g, ' ');
  return [`${paint.dim(String(diagnostic.line).padStart(5))} ${shown}`, `      ${gap}${colour('~'.repeat(length))}`];
}

/** `2 errors and 1 warning in 3 files`; what there is none of is left out. */
export function tally(diagnostics: readonly Diagnostic[], files: number): string {
  const counts = SEVERITIES.map((severity) => {
    const count = diagnostics.filter((diagnostic) => diagnostic.severity === severity).length;
    const noun = severity === 'information' ? 'note' : severity;
    return count === 0 ? '' : `${count} ${noun}${count === 1 ? '' : 's'}`;
  }).filter(Boolean);
  const where = `in ${files} ${files === 1 ? 'file' : 'files'}`;
  return counts.length === 0 ? `Nothing to report ${where}.` : `${counts.join(', ')} ${where}.`;
}
