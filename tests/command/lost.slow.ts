/**
 * Nothing is lost: whenever a run is killed and whatever the disk refuses, a file holds its old text or its new one, whole.
 * Two hundred runs: a hundred and twenty killed at any moment, eighty on a disk that is too full or a file that may not grow.
 */
import { spawn, spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build } from 'esbuild';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { folder, passagework } from './command';

const OLD = '1/8 d5 E5, F#5\n'.repeat(3000);
const NEW = '1/8 D5 E5 F#5\n'.repeat(3000);
/** Nine thousand bytes with few notes in them: the command is run eighty times over it. */
const BULK = '// Nothing to play, and as long as a file of many bars.\n'.repeat(155);
const SHORT = '1/8 d5 E5, F#5\n'.repeat(20) + BULK;
const SHORT_NEW = '1/8 D5 E5 F#5\n'.repeat(20) + BULK;
/** Moments to kill at, the same in every run of the test. */
const moments = (count: number, most: number) => fc.sample(fc.integer({ min: 0, max: most }), { numRuns: count, seed: 20261126 });

/** Starts a program that says when it begins to write, kills it so many milliseconds later, and waits for its end. */
async function killed(words: readonly string[], after: number, ready?: string): Promise<void> {
  const child = spawn(process.execPath, words, { stdio: ['ignore', 'pipe', 'ignore'] });
  const ended = new Promise((end) => child.once('exit', end));
  if (ready !== undefined)
    await new Promise<void>((go) => child.stdout.on('data', (chunk) => String(chunk).includes(ready) && go()));
  await new Promise((go) => setTimeout(go, after));
  child.kill('SIGKILL');
  await ended;
}

describe('killed while writing', () => {
  it('the door itself, a hundred times, on five megabytes', async () => {
    using place = folder({});
    const [path, door] = [join(place.path, 'a.passage'), join(place.path, 'door.mjs')];
    const contents = `
      import { replaceFile } from ${JSON.stringify(resolve('server/command/replace-file'))};
      console.log('ready');
      for (let turn = 0; ; turn++) replaceFile(process.argv[2], String(turn % 10).repeat(5_000_000));`;
    await build({ stdin: { contents, resolveDir: process.cwd() }, outfile: door, bundle: true, platform: 'node', format: 'esm' });
    writeFileSync(path, '9'.repeat(5_000_000));
    for (const moment of moments(100, 60)) {
      await killed([door, path], moment, 'ready');
      const text = readFileSync(path, 'utf8');
      expect(text.length).toBe(5_000_000);
      expect(text === text[0]!.repeat(5_000_000)).toBe(true);
    }
  });

  it('check --fix, twenty times, at any moment from its start', async () => {
    using place = folder({ 'a.passage': OLD });
    const path = join(place.path, 'a.passage');
    const seen = new Set<string>();
    for (const moment of moments(20, 1500)) {
      writeFileSync(path, OLD);
      await killed([resolve('dist/command.cjs'), 'check', '--fix', path], moment);
      const text = readFileSync(path, 'utf8');
      expect([OLD, NEW].includes(text)).toBe(true);
      seen.add(text);
    }
    expect(seen.size).toBeGreaterThan(0);
  });
});

describe.runIf(process.platform === 'linux')('a disk that refuses', () => {
  /** The command in a shell whose files may not grow beyond so many blocks of 1,024 bytes: like a disk on which no more fits. */
  const limited = (blocks: number, words: readonly string[], cwd: string) =>
    spawnSync('bash', ['-c', `ulimit -f ${blocks}; exec "$@"`, 'bash', process.execPath, resolve('dist/command.cjs'), ...words], {
      cwd,
      encoding: 'utf8',
    });

  it('sixty times: files that may not grow to their full length', () => {
    const files = { 'a.passage': SHORT, 'b.player': 'name: Kit\n' };
    using place = folder(files);
    writeFileSync(join(place.path, 'a.musicxml'), 'mine');
    for (const [index, blocks] of moments(60, 10).entries()) {
      const [words, path] = [
        [['check', '--fix', '--fail-on', 'never', 'a.passage'], 'a.passage'],
        [['format', 'a.passage'], 'a.passage'],
        [['convert', 'a.passage', '--force'], 'a.musicxml'],
      ][index % 3] as [string[], string];
      const before = readFileSync(join(place.path, path), 'utf8');
      const { status, stderr } = limited(blocks, words, place.path);
      const after = readFileSync(join(place.path, path), 'utf8');
      // Told in one plain line, unless the system ended the program.
      if (status === 2) expect(stderr).toMatch(/^passagework: Can't write \S+: it would be larger than files may be here\.\n$/);
      if (status !== 0) expect(after === before).toBe(true);
      writeFileSync(join(place.path, 'a.passage'), SHORT);
    }
  });

  // Only a superuser may mount; where none runs the tests the sixty above and the full device below stand for it.
  const mounted = folder({});
  const canMount = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=32k', 'tmpfs', mounted.path]).status === 0;
  it.runIf(canMount)('twenty times: a disk with room for the old text and not for the new one beside it', () => {
    const path = join(mounted.path, 'a.passage');
    try {
      for (let turn = 0; turn < 20; turn++) {
        writeFileSync(path, SHORT);
        writeFileSync(join(mounted.path, 'filler'), Buffer.alloc(turn * 1024));
        const { code, err } = passagework(['check', '--fix', '--fail-on', 'never', 'a.passage'], { cwd: mounted.path });
        const text = readFileSync(path, 'utf8');
        expect([code, text === (code === 2 ? SHORT : SHORT_NEW)]).toEqual([code, true]);
        if (code === 2) expect(err).toMatch(/Can't write a\.passage: there is no space left on the disk\./);
      }
    } finally {
      spawnSync('umount', [mounted.path]);
      mounted[Symbol.dispose]();
    }
  });
});
