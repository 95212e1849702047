import { readFileSync } from 'node:fs';
import { globSync } from 'tinyglobby';
import { describe, expect, it } from 'vitest';
import { reading } from '../support/reading';

const manifest = JSON.parse(readFileSync('package.json', 'utf8'));

describe('a folder that somebody sends', () => {
  it('may be opened without being trusted, for nothing in it is ever run', () => {
    expect(manifest.capabilities).toEqual({ untrustedWorkspaces: { supported: true }, virtualWorkspaces: true });
    const settings = Object.keys(manifest.contributes.configuration.properties);
    expect(settings.filter((name) => /path|command|program|args|env|url/i.test(name))).toEqual([]);
    // The one program that the client starts is the converter, which ships with it.
    const starting = globSync('client/**/*.ts').filter((path) =>
      /child_process|worker_threads|createTerminal/.test(readFileSync(path, 'utf8')),
    );
    expect(starting).toEqual(['client/node.ts']);
  });

  it.each([
    '../secret.player',
    'players/../../secret.player',
    '..\\secret.player',
    '/etc/hosts.player',
    'C:/keys.player',
    '~/keys.player',
    'file:///etc/hosts.player',
    'https://quay.example/a.player',
    'notes.txt',
    'a\u0000.player',
  ])('can have no player file read from %j', (path) => {
    const made = reading(`player: ${path}\nD5`);
    expect(made.problems.filter(({ span }) => span.start === 'player: '.length).length).toBeGreaterThan(0);
    for (const { edits } of made.problems.flatMap(({ fixes }) => fixes))
      for (const { text } of edits) expect(text).not.toMatch(/\.\.|^[/~\\]|:\//);
  });
});
