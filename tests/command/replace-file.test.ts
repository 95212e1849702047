import { chmodSync, lstatSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { replaceFile } from '../../server/command/replace-file';
import { folder } from './command';

describe('a file that is replaced', () => {
  it('is written whole, and nothing is left beside it', () => {
    using place = folder({ 'a.passage': 'old' });
    const path = join(place.path, 'a.passage');
    for (const text of ['new', '', 'x'.repeat(5_000_000)]) {
      replaceFile(path, text);
      expect(readFileSync(path, 'utf8') === text).toBe(true);
    }
    expect(readdirSync(place.path)).toEqual(['a.passage']);
  });

  it('is made where there is none', () => {
    using place = folder({});
    replaceFile(join(place.path, 'new.bin'), Uint8Array.of(1, 2, 3));
    expect([...readFileSync(join(place.path, 'new.bin'))]).toEqual([1, 2, 3]);
  });

  it.skipIf(process.platform === 'win32')('keeps its mode, and a link to it stays a link', () => {
    using place = folder({ 'real/a.passage': 'old' });
    const path = join(place.path, 'real/a.passage');
    chmodSync(path, 0o640);
    symlinkSync('real/a.passage', join(place.path, 'link.passage'));
    replaceFile(join(place.path, 'link.passage'), 'new');
    expect(readFileSync(path, 'utf8')).toBe('new');
    expect(statSync(path).mode & 0o777).toBe(0o640);
    expect(lstatSync(join(place.path, 'link.passage')).isSymbolicLink()).toBe(true);
  });

  it('is left alone when it is marked read-only, even for a superuser', () => {
    using place = folder({ 'a.passage': 'old' });
    const path = join(place.path, 'a.passage');
    chmodSync(path, 0o444);
    expect(() => replaceFile(path, 'new')).toThrow(/Can't write .*a\.passage: it is marked as read-only\./);
    expect(readFileSync(path, 'utf8')).toBe('old');
    expect(readdirSync(place.path)).toEqual(['a.passage']);
  });

  it('is left alone when somebody has saved it meanwhile', () => {
    using place = folder({ 'a.passage': 'old' });
    const path = join(place.path, 'a.passage');
    const read = readFileSync(path);
    writeFileSync(path, 'saved meanwhile');
    expect(() => replaceFile(path, 'new', read)).toThrow(/has changed while it was worked on/);
    expect(readFileSync(path, 'utf8')).toBe('saved meanwhile');
    expect(readdirSync(place.path)).toEqual(['a.passage']);
  });

  it('says in plain words why not', () => {
    using place = folder({ file: '' });
    expect(() => replaceFile(join(place.path, 'nowhere/a'), 'new')).toThrow(/Can't write .*nowhere\/a: /);
    expect(() => replaceFile(join(place.path, 'n'.repeat(300)), 'new')).toThrow(/its name is too long/);
  });
});
