import { describe, expect, it } from 'vitest';
import { CLEAN, folder, passagework, UNPLAYABLE } from './command';

describe('exit code', () => {
  it('is 0 when there is nothing to report', () => {
    const { code, out, err } = passagework(['check', '-'], { input: CLEAN });
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain('in 1 file');
  });

  it('is 1 when a passage can not be played, and says where', () => {
    const { code, out } = passagework(['check', '-'], { input: UNPLAYABLE });
    expect(code).toBe(1);
    expect(out).toMatch(/^standard input:1:5 error /m);
    expect(out).toContain('~~');
  });

  it('follows --fail-on', () => {
    expect(passagework(['check', '--fail-on', 'never', '-'], { input: UNPLAYABLE }).code).toBe(0);
    expect(passagework(['check', '--fail-on', 'hint', '-'], { input: UNPLAYABLE }).code).toBe(1);
  });

  it.each([
    ['no such file', ['check', 'nowhere.passage'], /no file or folder nowhere\.passage/],
    ['no match', ['check', 'nowhere/*.passage'], /No file matches/],
    ['no passage in the folder', ['check', 'tests/support'], /no file ending in .*\.passage.* in tests\/support/],
    ['no such command', ['sovle', 'a.passage'], /There is no command sovle\. Did you mean solve\?/],
    ['no such option', ['check', '--write-baselin', '-'], /--write-baselin'.*Did you mean --write-baseline\?/],
    ['no such severity', ['check', '--fail-on', 'trifle', '-'], /--fail-on: trifle is not one of error/],
    ['no such format', ['solve', '--format', 'xml', '-'], /--format: xml is not one of text, json/],
    ['no such hand', ['check', '--hand', 'huge', '-'], /--hand: .*small, medium or large/],
    ['no such tempo', ['check', '--tempo', 'fast', '-'], /--tempo: .*1\/4 = 96/],
    ['no such chance', ['solve', '--chance', '80', '-'], /--chance: 80 is not a chance/],
    ['curing standard input', ['check', '--fix', '-'], /standard input/],
    [
      'a file of another kind',
      ['check', 'package.json'],
      /package\.json is not read: its name ends in none of \.passage, \.player/,
    ],
  ])('is 2 and a sentence on standard error for %s', (_, words, reason) => {
    const { code, out, err } = passagework(words, { input: CLEAN });
    expect(err).toMatch(reason);
    expect(err).not.toMatch(/\n\s+at /);
    expect([code, out]).toEqual([2, '']);
  });
});

describe('inputs', () => {
  it('takes files, folders and patterns, each file once, and leaves other files alone', () => {
    using place = folder({
      'a.passage': CLEAN,
      'deep/b.passage': UNPLAYABLE,
      'deep/notes.txt': 'C3',
      'node_modules/c.passage': UNPLAYABLE,
    });
    const { out } = passagework(['check', '--format', 'json', 'a.passage', 'deep', '**/*.passage', '.'], { cwd: place.path });
    const files = JSON.parse(out).diagnostics.map((diagnostic: { file: string }) => diagnostic.file);
    expect(new Set(files)).toEqual(new Set(['deep/b.passage']));
  });

  it('counts columns as editors do, byte order mark or not', () => {
    using place = folder({ 'marked.passage': `\uFEFF${UNPLAYABLE}`, 'plain.passage': UNPLAYABLE });
    const columns = ['marked.passage', 'plain.passage'].map(
      (name) => JSON.parse(passagework(['check', '--format', 'json', name], { cwd: place.path }).out).diagnostics[0].column,
    );
    expect(columns).toEqual([5, 5]);
  });

  it('survives a file that is no text', () => {
    using place = folder({ 'noise.passage': String.fromCharCode(...Array.from({ length: 4096 }, (_, i) => (i * 7919) % 65536)) });
    const { code, err } = passagework(['check', '.'], { cwd: place.path });
    expect([code, err]).toEqual([1, '']);
  });
});

describe('help', () => {
  it('names every command', () => {
    const { code, out } = passagework(['--help']);
    expect(code).toBe(0);
    for (const name of ['check', 'solve', 'diff']) expect(out).toContain(name);
  });

  it('tells the version', () => {
    expect(passagework(['check', '--version']).out).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
});
