import { readdirSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { describe, expect, it } from 'vitest';
import { LONGER, LONGEST } from './layers';
import { lineCount, sourcePaths } from './sources';

/** Made by npm and the build, never committed. */
const MADE = new Set(['node_modules', 'dist', 'out', 'coverage']);
const VAGUE = /^(utils?|common|shared|helpers?|misc|.*manager)$/i;
const sources = ['grammar', 'server', 'client', 'tests'].flatMap(sourcePaths);
const linesOf = (path: string) => lineCount(readFileSync(path, 'utf8'));

describe('the tree', () => {
  it('has exactly four visible folders at the top', () => {
    const folders = readdirSync('.', { withFileTypes: true })
      .filter((entry) => entry.isDirectory() && !entry.name.startsWith('.') && !MADE.has(entry.name))
      .map((entry) => entry.name);
    expect(folders.sort()).toEqual(['client', 'grammar', 'server', 'tests']);
  });

  it('names every file and folder for what is in it', () => {
    const vague = sources.filter((path) => path.split('/').some((part) => VAGUE.test(basename(part, '.ts'))));
    expect(vague, 'a name that could hold anything ends up holding everything: name the file for its main export').toEqual([]);
  });

  it('keeps files short enough to read at a sitting', () => {
    const long = sources.filter((path) => !(path in LONGER) && linesOf(path) > LONGEST);
    expect(
      long,
      `more than ${LONGEST} lines: split by reason, or list the file with its reason in tests/architecture/layers.ts`,
    ).toEqual([]);
  });

  it('lists as longer only what still is', () => {
    expect(Object.keys(LONGER).filter((path) => !sources.includes(path) || linesOf(path) <= LONGEST)).toEqual([]);
  });
});
