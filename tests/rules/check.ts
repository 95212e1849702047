import { expect } from 'vitest';
import type { Problem } from '../../server/rules/rule';
import type { Snapshot } from '../../server/workspace/snapshot';
import { edited, marked } from '../support/caret';
import { reading } from '../support/reading';

export interface Checked {
  readonly text: string;
  readonly snapshot: Snapshot;
  /** The problems of the code under test, in the order of the text. */
  readonly found: readonly Problem[];
}

/**
 * Reads a fixture whose carets, two by two, hold the places where the code must be reported: at these characters and
 * nowhere else. Every fix is then tried: the problem is gone from its place, and nothing that was well has become an error.
 */
export function check(code: string, fixture: string): Checked {
  const { text, carets } = marked(fixture);
  const snapshot = reading(text);
  const found = snapshot.problems.filter((problem) => problem.code === code);
  const expected = carets.flatMap((start, index) => (index % 2 === 0 ? [text.slice(start, carets[index + 1])] : []));
  expect(found.map(({ span }) => text.slice(span.start, span.end))).toEqual(expected);
  expect(found.flatMap(({ span }) => [span.start, span.end])).toEqual(carets);
  for (const problem of found) for (const fix of problem.fixes) fixes(snapshot, problem, fix.title, edited(text, fix.edits));
  return { text, snapshot, found };
}

function fixes(before: Snapshot, { code }: Problem, title: string, text: string): void {
  const count = (problems: readonly Problem[], wanted: (problem: Problem) => boolean) => problems.filter(wanted).length;
  const { problems } = reading(text);
  const same = (problem: Problem) => problem.code === code;
  const error = ({ severity }: Problem) => severity === 'error';
  expect(count(problems, same), `“${title}” leaves ${code}: ${text}`).toBeLessThan(count(before.problems, same));
  expect(count(problems, error), `“${title}” makes an error: ${text}`).toBeLessThanOrEqual(count(before.problems, error));
}
