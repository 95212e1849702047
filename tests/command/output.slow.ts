import { linkSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folder, passagework } from './command';

const STUDIES = 'title: Harbour studies\npassage: Ebb\nmeter: 4/4\n1/4 D5 E5 F#5 E6o+B6o |\n';
const SCORE = passagework(['convert', '-'], { input: STUDIES }).out;
/** A folder as somebody keeps it: passages, a score, a player, and what has nothing to do with any of it. */
const FILES = {
  'studies/ebb.passage': `player: kit.player\n${STUDIES}`,
  'studies/kit.player': 'name: Kit\nhand: medium\n',
  'studies/tide.musicxml': SCORE,
  'studies/notes.txt': 'Tune the piano.',
  'out/keep.txt': 'mine',
};
/** Every file of the folder with what it says, and every folder. */
function contents(path: string): ReadonlyMap<string, string> {
  const entries = readdirSync(path, { recursive: true, withFileTypes: true });
  return new Map(
    entries.map((entry) => {
      const at = join(entry.parentPath, entry.name);
      return [at.slice(path.length + 1).replaceAll('\\', '/'), entry.isFile() ? readFileSync(at, 'latin1') : 'folder'];
    }),
  );
}

/** Runs the command in `path`; which files it made, and that it left all else as it was. */
function made(path: string, words: readonly string[]): readonly string[] {
  const before = contents(path);
  expect(passagework(words, { cwd: path })).toMatchObject({ code: 0 });
  const after = contents(path);
  for (const [name, text] of before) expect([name, after.get(name)]).toEqual([name, text]);
  return [...after.keys()].filter((name) => !before.has(name)).sort();
}

describe('a command that writes a file', () => {
  it.each([
    ['sheet as PDF', ['sheet', 'studies/ebb.passage', '--out', 'out/a.pdf'], ['out/a.pdf']],
    ['sheet as a page', ['sheet', 'studies', '--out', 'out/a.html'], ['out/a.html']],
    ['sheet, told no place', ['sheet', 'studies'], ['sheet.pdf']],
    ['exercises', ['exercises', 'studies/ebb.passage', '--out', 'out/a.passage'], ['out/a.passage']],
    ['exercises, told no place', ['exercises', 'studies/ebb.passage'], []],
    ['convert to a score', ['convert', 'studies/ebb.passage', '--out', 'out/a.musicxml'], ['out/a.musicxml']],
    ['convert to MIDI', ['convert', 'studies/ebb.passage', '--to', 'midi', '--out', 'out/a.mid'], ['out/a.mid']],
    ['convert to a recording', ['convert', 'studies/ebb.passage', '--to', 'wav', '--out', 'out/a.wav'], ['out/a.wav']],
    ['convert to a passage', ['convert', 'studies/tide.musicxml', '--out', 'out/a.passage'], ['out/a.passage']],
    ['convert, told no place', ['convert', 'studies/ebb.passage'], ['studies/ebb.musicxml']],
    ['convert into a folder', ['convert', 'studies/ebb.passage', '--out', 'out/'], ['out/ebb.musicxml']],
    ['convert into a new folder', ['convert', 'studies/ebb.passage', '--out', 'new/'], ['new', 'new/ebb.musicxml']],
    ['sheet into a folder', ['sheet', 'studies', '--out', 'out'], ['out/sheet.pdf']],
    ['convert of a score, told no place', ['convert', 'studies', '--to', 'passage'], ['studies/tide.passage']],
  ])('writes only what was asked for, where it was asked for: %s', (_, words, expected) => {
    using place = folder(FILES);
    expect(made(place.path, words)).toEqual(expected);
  });

  const WRITERS = [
    ['sheet', ['sheet', 'studies/ebb.passage'], 'html'],
    ['exercises', ['exercises', 'studies/ebb.passage'], 'passage'],
    ['convert', ['convert', 'studies/ebb.passage'], 'musicxml'],
  ] as const;

  describe.each(WRITERS)('%s', (_, words, ending) => {
    it.each([
      ['in a folder that is missing', 'nowhere/a', /no folder nowhere to write in\. Make it first, or choose another name/],
      ['in a file as if it were a folder', 'studies/notes.txt/a', /notes\.txt is a file, not a folder to write in/],
      ['there already', 'mine', /mine\.\w+ is there already\. Choose another name with --out, or --force/],
    ])('refuses a place that is %s, and changes nothing', (_, stem, reason) => {
      using place = folder({ ...FILES, [`sub.${ending}/keep.txt`]: 'mine', [`mine.${ending}`]: 'mine' });
      const before = contents(place.path);
      const { code, out, err } = passagework([...words, '--out', `${stem}.${ending}`], { cwd: place.path });
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toMatch(reason);
      expect(err.trimEnd().split('\n')).toHaveLength(1);
      expect(contents(place.path)).toEqual(before);
    });

    it.runIf(process.platform === 'linux')('says why a file can’t be written', () => {
      using place = folder(FILES);
      // A full disk, as Linux keeps one for trying.
      symlinkSync('/dev/full', join(place.path, `full.${ending}`));
      const { code, err } = passagework([...words, '--out', `full.${ending}`, '--force'], { cwd: place.path });
      expect(code).toBe(2);
      expect(err).toMatch(/^passagework: Can't write full\.\w+: .*no space left/i);
    });

    it('never writes over what it reads, whatever the name and even if told to', () => {
      using place = folder(FILES);
      const path = (name: string) => join(place.path, name);
      const source = `studies/ebb.passage`;
      linkSync(path(source), path(`hard.${ending}`));
      symlinkSync(path(source), path(`soft.${ending}`));
      linkSync(path('studies/kit.player'), path(`player.${ending}`));
      const names = [
        `hard.${ending}`,
        `soft.${ending}`,
        `player.${ending}`,
        ...(ending === 'passage' ? [source, `out/../${source}`] : []),
      ];
      for (const name of names) {
        const { code, err } = passagework([...words, '--out', name, '--force'], { cwd: place.path });
        expect({ name, code }).toEqual({ name, code: 2 });
        expect(err).toMatch(/is a file to read, and would be lost/);
        expect(readFileSync(path(source), 'utf8')).toBe(FILES[source]);
        expect(readFileSync(path('studies/kit.player'), 'utf8')).toBe(FILES['studies/kit.player']);
      }
    });
  });

  it.each([
    ['solve', '--page'],
    ['check', '--write-baseline'],
  ])(
    '%s writes over its own last %s unasked, over another file only when told, and never over what it reads',
    (command, option) => {
      using place = folder({ ...FILES, other: 'mine' });
      const run = (path: string, ...more: string[]) =>
        passagework([command, 'studies/ebb.passage', option, path, ...more], { cwd: place.path });
      expect(run('last').code).toBe(0);
      expect(run('last').code).toBe(0);
      const before = contents(place.path);
      for (const [path, reason] of [
        ['other', /other is there already\. Choose another name with --/],
        ['studies/ebb.passage', /is a file to read, and would be lost: choose another name with --/],
        ['studies/kit.player', /kit\.player is a file to read, and would be lost/],
        ['studies', /studies is a folder/],
        ['studies/notes.txt/a', /notes\.txt is a file, not a folder/],
      ] as const) {
        expect(run(path)).toMatchObject({ code: 2, out: '', err: expect.stringMatching(reason) });
      }
      expect(run('studies/kit.player', '--force').code).toBe(2);
      expect(contents(place.path)).toEqual(before);
      expect(run('other', '--force').code).toBe(0);
      expect(contents(place.path).get('other')).not.toBe('mine');
    },
  );

  it('writes all that one file becomes, or none of it', () => {
    using place = folder({ 'two.passage': 'passage: Ebb\n1/4 D5\npassage: Flood\n1/4 E5\n' });
    writeFileSync(join(place.path, 'two-2.musicxml'), 'mine');
    const before = contents(place.path);
    expect(passagework(['convert', 'two.passage'], { cwd: place.path })).toMatchObject({ code: 2, out: '' });
    expect(contents(place.path)).toEqual(before);
  });

  it('writes over no file that the same run reads', () => {
    using place = folder({ 'ebb.passage': STUDIES, 'ebb.musicxml': SCORE });
    const before = contents(place.path);
    const { code, err } = passagework(['convert', 'ebb.passage', 'ebb.musicxml', '--force'], { cwd: place.path });
    expect(code).toBe(2);
    expect(err).toMatch(/ebb\.musicxml is a file to read/);
    expect(contents(place.path)).toEqual(before);
  });

  it('refuses a name that says another kind of file than the one made', () => {
    using place = folder(FILES);
    const { code, err } = passagework(['convert', 'studies/ebb.passage', '--to', 'wav', '--out', 'x.mp3'], { cwd: place.path });
    expect(code).toBe(2);
    expect(err).toMatch(/--out: x\.mp3 would not hold what its name says, for what is made is \.wav/);
  });
});
