import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { snapshot } from '../../server/workspace/snapshot';

/**
 * The pages of the guide are read by people, and run here: a block fenced `passage` has nothing that can't be played or
 * read, one fenced `passage reports CODE` has that problem. Every page is in the list, and every link leads somewhere.
 */
const FOLDER = fileURLToPath(new URL('../../client/guide/', import.meta.url));
const PAGES = readdirSync(FOLDER);

/** A page without what it shows as it stands. */
const prose = (text: string) => text.replace(/^```[\s\S]*?^```$/gm, '');

const examples = PAGES.flatMap((page) =>
  [...readFileSync(FOLDER + page, 'utf8').matchAll(/^```passage(?: reports ([a-z-]+))?\n([\s\S]*?)^```$/gm)].map(
    ([, code, text]) => ({ page, code, text: text! }),
  ),
);

describe('the guide', () => {
  it.each(examples)('$page: $text', ({ code, text }) => {
    const { problems } = snapshot(text, 1, DEFAULT_SETTINGS);
    if (code) expect(problems.map((problem) => problem.code)).toContain(code);
    else expect(problems.filter(({ severity }) => severity === 'error' || severity === 'warning')).toEqual([]);
  });

  it('holds nothing that two versions of a page left when they were put together', () => {
    expect(PAGES.filter((page) => /^(?:<{7}|={7}|>{7})( |$)/m.test(readFileSync(FOLDER + page, 'utf8')))).toEqual([]);
  });

  it('lists every page, and links only to pages that are there', () => {
    const list = readFileSync(`${FOLDER}README.md`, 'utf8');
    for (const page of PAGES) if (page !== 'README.md') expect(list).toContain(`(${page})`);
    for (const page of PAGES) {
      for (const [, to] of prose(readFileSync(FOLDER + page, 'utf8')).matchAll(/\]\(([^)#:]+)/g))
        expect(existsSync(FOLDER + to!)).toBe(true);
    }
  });

  it('has a caution wherever a page speaks of stretches', () => {
    for (const page of PAGES) {
      const text = readFileSync(FOLDER + page, 'utf8');
      if (/stretch past|large stretch|wider stretch|limit of the hand/i.test(text)) expect(text).toContain('ain means stop');
    }
  });
});
