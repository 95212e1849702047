import type { Finding } from './finding';
import type { Severity } from './listing';
import { visible } from './visible';

const KINDS: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', information: 'notice', hint: 'notice' };

/** Findings as workflow commands, which a CI job prints to mark lines of a change (docs.github.com, “Workflow commands”). */
export function githubCommands(findings: readonly Finding[]): string {
  return findings.map(command).join('\n');
}

function command({ diagnostic }: Finding): string {
  const { file, severity, code, message, line, column, endLine, endColumn } = diagnostic;
  const properties = [
    ...(file === undefined ? [] : [['file', file]]),
    ['line', line],
    ['col', column],
    ...(endLine === line ? [['endColumn', Math.max(column, endColumn - 1)]] : [['endLine', endLine]]),
    ['title', code],
  ].map(([name, value]) => `${name}=${property(String(value))}`);
  return `::${KINDS[severity]} ${properties.join(',')}::${data(message)}`;
}

/** A percent sign begins what stands for another sign; a newline, which would end the command, is a picture like all controls. */
function data(text: string): string {
  return visible(text).replaceAll('%', '%25');
}

function property(text: string): string {
  return data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
}
