import { expect, it } from 'vitest';
import { roomOf } from './breaches';
import { PATTERNS } from './layers';
import { SOURCES } from './reach';
import { parseSource } from './sources';

/** The grammar itself, and rooms whose texts are those of other programs. */
const FREE = ['grammar', 'server/exchange', 'server/lsp'];

const patterned = [...SOURCES.values()]
  .filter(({ path, patterns, names }) => !FREE.includes(roomOf(path) ?? '') && (patterns.length > 0 || usesRegExp(names)))
  .map(({ path }) => path);

function usesRegExp(names: readonly { readonly name: string }[]): boolean {
  return names.some(({ name }) => name === 'RegExp' || name === 'new RegExp');
}

it('a language of ours is read by its grammar alone: regular expressions elsewhere are listed with what they read', () => {
  expect(patterned.filter((path) => !(path in PATTERNS))).toEqual([]);
});

it('lists only files that still have one', () => {
  expect(Object.keys(PATTERNS).filter((path) => !patterned.includes(path))).toEqual([]);
});

it('finds them however they are written', () => {
  expect(parseSource('server/passage/a.ts', 'const a = /x/.exec(b);').patterns).toEqual([1]);
  expect(usesRegExp(parseSource('server/passage/a.ts', "const a = new RegExp('x');").names)).toBe(true);
  expect(usesRegExp(parseSource('server/passage/a.ts', "const a = RegExp('x');").names)).toBe(true);
});
