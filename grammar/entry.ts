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
    const why = `This ${row.key} has no value. ${row.meaning} For example: ${whole}.`;
    report(problem(code, place, why, [{ title: `Write ${whole}`, text: whole }]));
    return undefined;
  }
  const reading = readValue(row.value, value);
  if ('value' in reading) return reading.value;
  for (const fault of reading.faults) report(faultProblem(code, `This ${row.key}`, fault));
  return undefined;
}

/** What is said of words that can't be read, whoever found it. `what` begins the sentence. */
export function faultProblem(code: SyntaxCode | PlayerCode, what: string, fault: Fault): SyntaxProblem {
  const { start, end } = fault.span;
  return {
    code,
    start,
    end,
    message: `${what} can't be read: ${fault.why}.`,
    get fixes() {
      return fault.fixes;
    },
  };
}
