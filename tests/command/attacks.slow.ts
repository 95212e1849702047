import { spawnSync } from 'node:child_process';
import { linkSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CLEAN, folder, passagework, UNPLAYABLE } from './command';

const SECRET = 'the key under the mat';
/** What a terminal obeys: C0 but for tab and line feed, DEL, C1. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be there.
const OBEYED = /[\0-\x08\x0b-\x1f\x7f-\x9f]/;

describe('what a hostile collection can’t do', () => {
  it.skipIf(process.platform === 'win32')('make a folder’s check leave the folder', () => {
    using elsewhere = folder({ 'secret.txt': SECRET, 'other.passage': `${SECRET}\n` });
    using place = folder({ 'a/real.passage': UNPLAYABLE });
    const link = (to: string, name: string) => symlinkSync(to, join(place.path, name));
    link(join(elsewhere.path, 'secret.txt'), 'a/file.passage');
    link(join(elsewhere.path, 'other.passage'), 'a/other.passage');
    link(elsewhere.path, 'a/out');
    link('..', 'a/loop');
    link('/dev/zero', 'a/zero.passage');
    link('nowhere', 'a/broken.passage');
    link('real.passage', 'a/again.passage');
    for (const words of [['a'], ['.'], ['**/*.passage']]) {
      const { code, out, err } = passagework(['check', '--format', 'json', ...words], { cwd: place.path });
      expect([words, code, err]).toEqual([words, 1, '']);
      expect(out).not.toContain('key');
      const files = new Set(JSON.parse(out).diagnostics.map(({ file }: { file: string }) => file));
      // What a link inside the folder leads to is found there, once.
      expect(files).toEqual(new Set(['a/real.passage']));
    }
    // A hook hands over names, and a name may be a link too.
    const named = passagework(['check', 'a/file.passage'], { cwd: place.path });
    expect([named.code, named.out]).toEqual([2, '']);
    expect(named.err).toMatch(/is a link to a file whose name ends in none of \.passage, \.player/);
  });

  it.skipIf(process.platform === 'win32')('make it wait for a pipe, or read a device', () => {
    using place = folder({});
    spawnSync('mkfifo', [join(place.path, 'p.passage'), join(place.path, 'p.player')]);
    writeFileSync(join(place.path, 'a.passage'), 'player: p.player\n1/4 D5\n');
    for (const [word, reason] of [
      ['p.passage', /p\.passage is a pipe, and only files are read/],
      ['/dev/zero', /\/dev\/zero is not read/],
    ] as const) {
      expect(passagework(['check', word], { cwd: place.path })).toMatchObject({
        code: 2,
        out: '',
        err: expect.stringMatching(reason),
      });
    }
    const { code, out } = passagework(['check', 'a.passage'], { cwd: place.path });
    expect([code, out]).toEqual([1, expect.stringContaining('it is not a plain file')]);
  });

  it('make the terminal obey', () => {
    const evil = '\x1b]0;taken\x07\x1b[2J\x9b31m\x7f';
    const name = process.platform === 'win32' ? 'a' : `a${evil}\nb`;
    using place = folder({
      [`${name}.passage`]: `passage: T${evil}\n1/4 C3 ${evil} [${evil}]\n`,
      'b.passage': `passage: T${evil}\n1/4 D5\n`,
    });
    const file = `${name}.passage`;
    for (const words of [
      ['check', '.'],
      ['check', '--format', 'json', '.'],
      ['check', '--format', 'sarif', '.'],
      ['check', '--format', 'junit', '.'],
      ['check', '--format', 'github', '.'],
      ['check', '--unsafe-fixes', '--diff', '.'],
      ['check', '--hands', 'small', '.'],
      ['solve', '.'],
      ['solve', '--format', 'json', '.'],
      ['diff', file, 'b.passage'],
      ['diff', '--format', 'json', file, 'b.passage'],
      ['format', '--check', file],
      ['convert', file, '--out', 'x.musicxml'],
      ['exercises', file, '--passage', evil],
      ['check', `no${evil}.passage`],
      ['check', `--${evil}`],
      [evil],
    ]) {
      const { out, err } = passagework(words, { cwd: place.path });
      expect([words, OBEYED.exec(out + err)]).toEqual([words, null]);
    }
  });

  it('lose what is written in another encoding', () => {
    const latin = Buffer.from('// für Zoë\n1/4 d5\n', 'latin1');
    const wide = Buffer.from('\uFEFF1/4 d5\n', 'utf16le');
    using place = folder({ 'marked.passage': '\uFEFF1/4 d5 // für Zoë\r\n' });
    const at = (name: string) => join(place.path, name);
    writeFileSync(at('latin.passage'), latin);
    writeFileSync(at('wide.passage'), wide);
    for (const words of [
      ['check', '--fix', '.'],
      ['format', '.'],
    ]) {
      const { code, err } = passagework(words, { cwd: place.path });
      expect(code).toBe(2);
      expect(err).toMatch(/latin\.passage can't be read: the byte 0xFC on line 1/);
      expect(err).toMatch(/wide\.passage can't be read: it is written in UTF-16/);
      expect(readFileSync(at('latin.passage')).equals(latin)).toBe(true);
      expect(readFileSync(at('wide.passage')).equals(wide)).toBe(true);
    }
    // What can be read has had its turn.
    expect(readFileSync(at('marked.passage'), 'utf8')).toBe('\uFEFF1/4 D5  // für Zoë\r\n');
  });

  it('have a file written over that was read, as a link or under another name', () => {
    using place = folder({ 'a.passage': `player: kit.player\n${CLEAN}`, 'kit.player': 'hand: small\n' });
    mkdirSync(join(place.path, 'out'));
    linkSync(join(place.path, 'kit.player'), join(place.path, 'out/same.html'));
    for (const words of [
      ['solve', 'a.passage', '--page', 'kit.player', '--force'],
      ['solve', 'a.passage', '--page', 'out/same.html', '--force'],
      ['solve', 'a.passage', '--output-file', 'a.passage', '--force'],
      ['check', '.', '--write-baseline', 'kit.player', '--force'],
      ['check', '.', '--output-file', './kit.player', '--force'],
      ['check', 'a.passage', '--cache-file', 'kit.player'],
      ['sheet', 'a.passage', '--out', 'out/same.html', '--force'],
      ['convert', 'a.passage', '--out', 'kit.player', '--force'],
      ['exercises', 'a.passage', '--out', resolve(place.path, 'kit.player'), '--force'],
      ['diff', 'a.passage', 'a.passage', '-o', 'kit.player', '--force'],
    ]) {
      const { code, err } = passagework(words, { cwd: place.path });
      expect([words, code, /is a file to read, and would be lost/.test(err)]).toEqual([words, 2, true]);
    }
    expect(readFileSync(join(place.path, 'kit.player'), 'utf8')).toBe('hand: small\n');
  });
});
