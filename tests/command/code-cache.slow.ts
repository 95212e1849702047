import { chmodSync, existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { CodeCache } from '../../server/command/code-cache';
import { CLEAN, folder, passagework } from './command';

afterEach(() => vi.unstubAllEnvs());

// The places are those of Linux (XDG Base Directory Specification); what is kept there is the same everywhere.
describe.runIf(process.platform === 'linux')('compiled code kept for the next start', () => {
  it('is made by the first run, used by the next and made anew where it is spoilt; the answer is always the same', () => {
    using made = folder({ 'clean.passage': CLEAN });
    const env = { XDG_CACHE_HOME: join(made.path, 'cache') };
    const kept = join(env.XDG_CACHE_HOME, 'passagework', 'check.code');
    const run = () => passagework(['check', 'clean.passage'], { cwd: made.path, env });
    const first = run();
    expect(first).toMatchObject({ code: 0, err: '' });
    const [code, { mtimeMs }] = [readFileSync(kept), statSync(kept)];
    expect(run()).toEqual(first);
    expect(statSync(kept).mtimeMs).toBe(mtimeMs);
    for (const spoilt of [code.subarray(0, 700), Buffer.concat([code.subarray(0, 600), Buffer.alloc(code.length - 600)])]) {
      writeFileSync(kept, spoilt);
      expect(run()).toEqual(first);
      expect(statSync(kept).size).toBeGreaterThan(code.length / 2);
    }
  });

  it('is left alone where Node is told to keep none, and where the run could not start', () => {
    using made = folder({ 'clean.passage': CLEAN });
    const env = { XDG_CACHE_HOME: join(made.path, 'cache') };
    const run = (words: readonly string[], more = {}) => passagework(words, { cwd: made.path, env: { ...env, ...more } });
    expect(run(['check', 'clean.passage'], { NODE_DISABLE_COMPILE_CACHE: '1' }).code).toBe(0);
    expect(run(['check', 'missing.passage']).code).toBe(2);
    expect(run(['../check']).code).toBe(2);
    expect(existsSync(env.XDG_CACHE_HOME)).toBe(false);
  });

  it('is taken from nobody else: not of another file, nor where others may write', () => {
    using made = folder({ 'one.cjs': '1', 'two.cjs': '2' });
    vi.stubEnv('XDG_CACHE_HOME', join(made.path, 'cache'));
    const cacheOf = (name: string) => CodeCache.of(join(made.path, name), 'check');
    expect(cacheOf('one.cjs')?.found).toBeUndefined();
    cacheOf('one.cjs')?.keep(() => Buffer.from('code'));
    expect(cacheOf('one.cjs')?.found?.toString()).toBe('code');
    expect(cacheOf('two.cjs')?.found).toBeUndefined();
    const kept = join(made.path, 'cache', 'passagework', 'check.code');
    chmodSync(kept, 0o666);
    expect(cacheOf('one.cjs')?.found).toBeUndefined();
    chmodSync(kept, 0o600);
    writeFileSync(join(made.path, 'one.cjs'), '1');
    expect(cacheOf('one.cjs')?.found).toBeUndefined();
  });
});
