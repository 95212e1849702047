import { t } from '../server/l10n/translate';
import { type PlayerCode, problem, type Report, type SyntaxCode } from './problems';
import type { Key } from './settings';
import type { SyntaxProblem, Word } from './tree';
import { type Fault, readValue } from './values/read-value';
import type { ValueNode } from './values/value-tree';

/** Reads the value of a `key: value` line into its parts, reporting under `code` what keeps it from being read. */
export function readEntry(
  row: Key,
  key: Word,
  value: Word,
  code: SyntaxCode | PlayerCode,
  report: Report,
): ValueNode | undefined {
  if (value.text === '' && row.value !== 'text') {
    const place = { start: key.start, end: Math.max(key.end, value.end) };
    const whole = `${row.key}: ${row.example}`;
    const why = t('This {key} has no value. {meaning} For example: {whole}.', { key: row.key, meaning: t(row.meaning), whole });
    report(problem(code, place, why, [{ title: t('Write {whole}', { whole }), text: whole }]));
    return undefined;
  }
  const reading = readValue(row.value, value);
  if ('value' in reading) return reading.value;
  for (const fault of reading.faults) report(faultProblem(code, cantBeRead(row.key, fault.why), fault));
  return undefined;
}

/** What is said of the value behind a key. */
export function cantBeRead(key: string, why: string): string {
  return t("This {key} can't be read: {why}.", { key, why });
}

/** A problem made of what keeps words from being read, whoever found it. */
export function faultProblem(code: SyntaxCode | PlayerCode, message: string, fault: Fault): SyntaxProblem {
  const { start, end } = fault.span;
  return {
    code,
    start,
    end,
    message,
    get fixes() {
      return fault.fixes;
    },
  };
}
