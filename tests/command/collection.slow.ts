import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CLEAN, folder, passagework, started, UNPLAYABLE } from './command';

describe('baseline', () => {
  it('lets an old collection in and still fails on what is new, wherever lines have moved', () => {
    using place = folder({ 'old.passage': UNPLAYABLE });
    const at = { cwd: place.path };
    expect(passagework(['check', '.'], at).code).toBe(1);
    expect(passagework(['check', '--write-baseline', 'known.json', '.'], at).code).toBe(0);
    const known = passagework(['check', '--baseline', 'known.json', '.'], at);
    expect(known.code).toBe(0);
    expect(known.out).toMatch(/more in the baseline/);

    writeFileSync(join(place.path, 'old.passage'), `// Moved down.\n\n${UNPLAYABLE}`);
    expect(passagework(['check', '--baseline', 'known.json', '.'], at).code).toBe(0);
    writeFileSync(join(place.path, 'old.passage'), `${UNPLAYABLE}1/4 B2 D5\n`);
    const { code, out } = passagework(['check', '--baseline', 'known.json', '--format', 'json', '.'], at);
    expect(code).toBe(1);
    expect(JSON.parse(out).diagnostics.map(({ line }: { line: number }) => line)).toEqual([2]);
  });

  it('knows a file by any spelling of its path, from any folder', () => {
    using place = folder({ 'scores/old.passage': UNPLAYABLE, 'deep/x': '' });
    const at = (cwd: string, ...words: string[]) => passagework(['check', ...words], { cwd: join(place.path, cwd) }).code;
    expect(at('.', '--write-baseline', 'scores/known.json', 'scores')).toBe(0);
    expect(readFileSync(join(place.path, 'scores/known.json'), 'utf8')).toContain('"old.passage"');
    expect(at('.', '--baseline', 'scores/known.json', './scores/../scores/old.passage')).toBe(0);
    expect(at('scores', '--baseline', './known.json')).toBe(0);
    expect(at('deep', '--baseline', '../scores/known.json', join(place.path, 'scores'))).toBe(0);
  });

  it('that is missing is an empty one, with a note', () => {
    const { code, out, err } = passagework(['check', '--baseline', 'none.json', '-'], { input: UNPLAYABLE });
    expect([code, out.includes('1 error')]).toEqual([1, true]);
    expect(err).toMatch(/There is no baseline none\.json yet, so every finding counts/);
  });

  it('refuses a file that is no baseline', () => {
    using place = folder({ 'a.passage': UNPLAYABLE, 'known.json': '{"version":7}' });
    const { code, err } = passagework(['check', '--baseline', 'known.json', '.'], { cwd: place.path });
    expect(code).toBe(2);
    expect(err).toContain('--write-baseline known.json');
  });
});

describe('a fault in a motif', () => {
  const text = 'motif gull = D5 F#6o [third]\n1/4 gull\n';

  it('is told where the motif is used, with the place it is written at', () => {
    const { out } = passagework(['check', '-'], { input: text });
    expect(out).toMatch(/^standard input:2:5 warning lone-third: /);
    expect(out).toContain('\n      1:17: This note of the motif.\n');
  });

  it('in JSON as related places', () => {
    const { out } = passagework(['check', '--format', 'json', '-'], { input: text });
    expect(JSON.parse(out).diagnostics).toMatchObject([
      { code: 'lone-third', line: 2, column: 5, related: [{ line: 1, column: 17, endLine: 1, endColumn: 29 }] },
    ]);
  });
});

describe('--fix', () => {
  it('applies safe fixes, keeps the rest of the text, and has nothing left to do the second time', () => {
    using place = folder({ 'a.passage': '// Keep me.\nE5<>A5 = E6 // and me\n1/4 D5\n' });
    const at = { cwd: place.path };
    const read = () => readFileSync(join(place.path, 'a.passage'), 'utf8');
    const first = passagework(['check', '--fix', 'a.passage'], at);
    const once = read();
    expect(once).toContain('// Keep me.');
    expect(once).toContain('// and me\n1/4 D5\n');
    passagework(['check', '--fix', 'a.passage'], at);
    expect(read()).toBe(once);
    expect(first.out).toMatch(/fixes? applied|error/);
  });

  it('leaves a clean file as it is', () => {
    using place = folder({ 'a.passage': CLEAN });
    passagework(['check', '--fix', 'a.passage'], { cwd: place.path });
    expect(readFileSync(join(place.path, 'a.passage'), 'utf8')).toBe(CLEAN);
  });
});

describe('many files', () => {
  it('gives with threads what it gives without, in the same order', () => {
    const files = Object.fromEntries(
      Array.from({ length: 40 }, (_, i) => [`p${String(i).padStart(2, '0')}.passage`, i % 3 === 0 ? UNPLAYABLE : CLEAN]),
    );
    using place = folder(files);
    const threaded = JSON.parse(passagework(['check', '--format', 'json', '.'], { cwd: place.path }).out).diagnostics;
    const names = Object.keys(files);
    const alone = [names.slice(0, 20), names.slice(20)].flatMap(
      (some) => JSON.parse(passagework(['check', '--format', 'json', ...some], { cwd: place.path }).out).diagnostics,
    );
    expect(threaded.length).toBeGreaterThanOrEqual(14);
    expect(threaded).toEqual(alone);
  });
});

describe('--watch', () => {
  it('checks at the start and again after a file is saved', { timeout: 40_000 }, async () => {
    using place = folder({ 'a.passage': CLEAN });
    const child = started(['check', '--watch', '.'], place.path);
    let out = '';
    let err = '';
    child.stdout?.on('data', (chunk) => {
      out += chunk;
    });
    child.stderr?.on('data', (chunk) => {
      err += chunk;
    });
    const until = async (seen: () => boolean) => {
      for (let i = 0; i < 1000 && !seen(); i++) await new Promise((wake) => setTimeout(wake, 20));
      expect(seen(), out + err).toBe(true);
    };
    try {
      await until(() => /in 1 file/.test(out) && err.includes('Watching'));
      expect(out).not.toMatch(/error/);
      // The watcher learns of the folder a moment after it says so: a save that came too early is made again.
      const save = setInterval(() => writeFileSync(join(place.path, 'a.passage'), UNPLAYABLE), 1000);
      await until(() => /a\.passage:1:5 error/.test(out)).finally(() => clearInterval(save));
    } finally {
      const ended = new Promise((end) => child.once('exit', end));
      child.kill('SIGINT');
      expect(await ended).toBe(0);
    }
  });
});

describe('--hands', () => {
  it('tells which hand can play what and how fast', () => {
    using place = folder({ 'a.passage': 'passage: Harbour steps\n1/4 D5 E5 F#5\npassage: Wide\n1/4 A3<>E4 [IV 1-4]\n' });
    const { out, code } = passagework(['check', '--hands', 'small,large', 'a.passage'], { cwd: place.path });
    expect(code).toBe(0);
    expect(out).toMatch(/^passage +small +large$/m);
    expect(out).toMatch(/Harbour steps +1\/4 = \d+ +1\/4 = \d+/);
    expect(out).toMatch(/Wide/);
    expect(out).toMatch(/Pain means stop/);
    const json = JSON.parse(
      passagework(['check', '--format', 'json', '--hands', 'small,large', 'a.passage'], { cwd: place.path }).out,
    );
    expect(json.hands).toEqual(['small', 'large']);
    expect(json.passages.map(({ title }: { title: string }) => title)).toEqual(['Harbour steps', 'Wide']);
    const [small, large] = json.passages[1].verdicts;
    expect([small.stuckInBar, large.stuckInBar]).toEqual([1, undefined]);
    expect(large.clean).toBeGreaterThan(0);
  });
});
