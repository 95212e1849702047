/**
 * The pages of the rules room, `<code>.md` for everything that can be reported, are read by players and run by this test.
 *
 * A page opens with its title, then a line with its code and the level it is reported at, then the four headings below.
 * Every fenced block is an example, and its info string says what must be true of it:
 *
 *     ```passage reports            the code of the page is reported, at the page's level
 *     ```passage reports 900 times  the same for the block's one line so many times over, where size is what is wrong
 *     ```passage becomes            what the `reports` block before it is after its first fix; the code is then gone and
 *                                   nothing new is wrong
 *     ```passage quiet              a good way to write it: no error and no warning of any kind, and nothing of this code
 *
 * A page has at least one `reports` and one `quiet`.
 */
import { describe, expect, it } from 'vitest';
import { CODES } from '../../server/rules/check';
import type { Problem } from '../../server/rules/rule';
import { edited } from '../support/caret';
import { reading } from '../support/reading';
import { type Example, pageCodes, readPage } from './page';

const HEADINGS = ['What it means', 'Why it matters', 'What to do', 'Examples'];

const problemsOf = (text: string): readonly Problem[] => reading(text).problems;
const grave = (problems: readonly Problem[]) =>
  problems
    .filter(({ severity }) => severity === 'error' || severity === 'warning')
    .map(({ code, message }) => `${code}: ${message}`);

describe('pages', () => {
  it('there is one for every code, and none for what is never reported', () => {
    expect([...pageCodes()].sort()).toEqual([...CODES].sort());
  });

  describe.each(CODES.filter((code) => pageCodes().includes(code)))('%s', (code) => {
    const page = readPage(code);

    it('has a title, its headings and an example of each kind', () => {
      expect(page.title).toMatch(/^[A-Z].*[^.]$/);
      expect(page.headings).toEqual(HEADINGS);
      const kinds = page.examples.map(({ kind }) => kind);
      expect(kinds).toContain('reports');
      expect(kinds).toContain('quiet');
    });

    it.each(page.examples.map((example, index) => [`${example.kind}, line ${example.line}`, example, index] as const))(
      '%s',
      (_, example, index) => check(code, page.severity, example, page.examples[index - 1]),
    );
  });
});

function check(code: string, severity: string, { kind, text }: Example, before: Example | undefined): void {
  const found = problemsOf(text);
  if (kind === 'reports') {
    expect(found.map((problem) => `${problem.code} · ${problem.severity}`)).toContain(`${code} · ${severity}`);
  } else if (kind === 'quiet') {
    expect(grave(found)).toEqual([]);
    expect(found.map((problem) => problem.code)).not.toContain(code);
  } else {
    expect(before?.kind).toBe('reports');
    const earlier = problemsOf(before!.text);
    const fix = earlier.find((problem) => problem.code === code)?.fixes[0];
    expect(fix && edited(before!.text, fix.edits)).toBe(text);
    expect(found.map((problem) => problem.code)).not.toContain(code);
    const known = new Set(grave(earlier).map((line) => line.split(':')[0]));
    expect(grave(found).filter((line) => !known.has(line.split(':')[0]))).toEqual([]);
  }
}
