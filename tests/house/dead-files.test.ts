import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readSource, sourcePaths, target } from './sources';
import { ENTRIES } from './walls';

const sources = new Map(['grammar', 'server', 'client'].flatMap(sourcePaths).map((path) => [path, readSource(path)]));

function reached(): ReadonlySet<string> {
  const seen = new Set<string>();
  const open = [...ENTRIES];
  for (let path = open.pop(); path !== undefined; path = open.pop()) {
    const source = sources.get(path);
    if (!source || seen.has(path)) continue;
    seen.add(path);
    for (const { specifier } of source.imports) {
      const to = target(path, specifier);
      if (to.kind === 'file') open.push(`${to.name}.ts`, `${to.name}/index.ts`);
    }
  }
  return seen;
}

it('every program begins at a file that the build knows', () => {
  const build = readFileSync('build.mjs', 'utf8');
  expect(ENTRIES.filter((entry) => !sources.has(entry) || !build.includes(`'${entry}'`))).toEqual([]);
});

it('every file of the rooms ships in some program: code that only its tests use is dead', () => {
  const live = reached();
  expect([...sources.keys()].filter((path) => !live.has(path))).toEqual([]);
});
