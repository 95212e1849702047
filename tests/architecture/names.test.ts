import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { SOURCES } from './reach';

/** What VS Code calls by these names, in each of its hosts. */
const GIVEN = new Set(['activate', 'deactivate']);

/** The functions that a file exports, each once however often it is overloaded. */
function exported(text: string): Set<string> {
  return new Set([...text.matchAll(/^export (?:async )?function\*? ?(\w+)/gm)].map(([, name]) => name!));
}

it('no two exported functions have one name: who reads it knows which is meant', () => {
  const where = new Map<string, string[]>();
  for (const path of SOURCES.keys())
    for (const name of exported(readFileSync(path, 'utf8'))) where.set(name, [...(where.get(name) ?? []), path]);
  expect(where.size).toBeGreaterThan(500);
  expect([...where].filter(([name, paths]) => paths.length > 1 && !GIVEN.has(name))).toEqual([]);
});

it('finds them', () => {
  expect(exported('export function one() {}\nexport async function two() {}\nfunction three() {}')).toEqual(
    new Set(['one', 'two']),
  );
});
