import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { ENTRIES, HEAVY } from './layers';
import { reached } from './reach';

const loaded = new Map(
  ENTRIES.map((entry) => {
    const { files, packages } = reached([entry], ({ typeOnly }) => !typeOnly);
    return [entry, new Set([...files, ...packages])];
  }),
);

it.each(Object.entries(HEAVY))('%s is reached by the programs that need it, and by no other', (name, programs) => {
  expect(ENTRIES.filter((entry) => loaded.get(entry)?.has(name))).toEqual(programs);
});

it('the writer of PDF is built into a file of its own, which command and converter load to print a sheet', () => {
  const bundles = readdirSync('dist', { recursive: true }).map((path) => String(path).replaceAll('\\', '/'));
  const programs = bundles.filter((path) => /\.c?js$/.test(path));
  expect(programs.length).toBeGreaterThan(8);
  // How every PDF begins: ISO 32000-2, 7.5.2.
  expect(programs.filter((path) => readFileSync(`dist/${path}`, 'latin1').includes('%PDF-'))).toEqual(['pdf.cjs']);
  expect(programs.filter((path) => /\/pdf\.cjs\b/.test(readFileSync(`dist/${path}`, 'latin1'))).sort()).toEqual([
    'command-program.cjs',
    'server/node-conversion.js',
  ]);
});
