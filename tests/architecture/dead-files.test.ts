import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { ENTRIES } from './layers';
import { reached, SOURCES } from './reach';

it('every program begins at a file that the build knows', () => {
  const build = readFileSync('build.mjs', 'utf8');
  expect(ENTRIES.filter((entry) => !SOURCES.has(entry) || !build.includes(`'${entry}'`))).toEqual([]);
});

it('every file of the rooms ships in some program: code that only its tests use is dead', () => {
  const live = reached(ENTRIES).files;
  expect([...SOURCES.keys()].filter((path) => !live.has(path))).toEqual([]);
});
