/** What users of linters expect of a command that looks after a collection, each with its test. Common practice, no source. */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { CLEAN, folder, passagework, UNPLAYABLE } from './command';
import { conventions } from './conventions';

conventions({
  '--changed takes what git finds changed, --since counts from a commit': (_, run) => {
    using checkout = folder({ 'a.passage': UNPLAYABLE, 'b.passage': UNPLAYABLE });
    const git = (...words: string[]) =>
      expect(
        spawnSync('git', ['-c', 'user.name=Kit', '-c', 'user.email=kit@coast.example', ...words], { cwd: checkout.path }).status,
      ).toBe(0);
    git('init', '-q');
    git('add', '.');
    git('commit', '-qm', 'one');
    const checked = (...words: string[]) =>
      [...passagework(['check', ...words], { cwd: checkout.path }).out.matchAll(/^(\w+\.passage):/gm)].map(([, name]) => name);
    expect(checked('--changed')).toEqual([]);
    writeFileSync(join(checkout.path, 'b.passage'), `// Changed.\n${UNPLAYABLE}`);
    writeFileSync(join(checkout.path, 'c.passage'), UNPLAYABLE);
    expect(checked('--changed')).toEqual(['b.passage', 'c.passage']);
    git('add', '.');
    git('commit', '-qm', 'two');
    expect(checked('--changed')).toEqual([]);
    expect(checked('--since', 'HEAD~1')).toEqual(['b.passage', 'c.passage']);
    expect(passagework(['check', '--since', '--upload-pack=x'], { cwd: checkout.path }).code).toBe(2);
    expect(run('check', '--changed')).toMatchObject({ code: 2, err: expect.stringContaining('in no checkout of git') });
  },
  '--cache gives the same answer, and sees every change that matters': () => {
    using place = folder({ 'a.passage': `player: kit.player\n${UNPLAYABLE}`, 'kit.player': 'hand: small\n', 'b.passage': CLEAN });
    const at = { cwd: place.path };
    const path = (name: string) => join(place.path, name);
    const agree = () => {
      const cached = passagework(['check', '--format', 'json', '--cache', 'a.passage', 'b.passage'], at);
      const plain = passagework(['check', '--format', 'json', 'a.passage', 'b.passage'], at);
      expect(cached).toEqual(plain);
    };
    agree();
    agree();
    // It is used: what it says is believed as long as nothing has changed.
    const file = path('.passagework-cache.json');
    const kept = readFileSync(file, 'utf8');
    writeFileSync(file, kept.replace('octave-slip', 'made-up'));
    expect(passagework(['check', '--cache', 'a.passage'], at).out).toContain('made-up');
    writeFileSync(path('kit.player'), 'hand: enormous\n');
    agree();
    writeFileSync(path('passagework.json'), '{ "rules": { "octave-slip": "hint" } }');
    agree();
    writeFileSync(path('a.passage'), CLEAN);
    agree();
    writeFileSync(file, '{"mine":1}');
    expect(passagework(['check', '--cache', '.'], at)).toMatchObject({
      code: 2,
      err: expect.stringContaining('is there already'),
    });
  },
  'passagework.json says rules, hand and exclusions, from its folder down; .gitignore counts': () => {
    using place = folder({
      '.git/HEAD': '',
      '.gitignore': 'drafts/\n!drafts/kept.passage\n*.old.passage\n',
      'passagework.json': '{ "rules": { "octave-slip": "warning" }, "exclude": ["/skip/", "x-*.passage"], "hand": "small" }',
      'a.passage': UNPLAYABLE,
      'skip/b.passage': UNPLAYABLE,
      'x-1.passage': UNPLAYABLE,
      'deep/skip/c.passage': UNPLAYABLE,
      'deep/d.passage': UNPLAYABLE,
      'deep/passagework.json': '{ "rules": { "octave-slip": "hint" } }',
      'deep/.gitignore': 'e.passage\n',
      'deep/e.passage': UNPLAYABLE,
      'drafts/f.passage': UNPLAYABLE,
      'g.old.passage': UNPLAYABLE,
    });
    const levels = (cwd: string, ...words: string[]) =>
      JSON.parse(passagework(['check', '--format', 'json', ...words], { cwd: join(place.path, cwd) }).out).diagnostics.map(
        ({ file, severity }: { file: string; severity: string }) => `${file} ${severity}`,
      );
    expect(levels('.')).toEqual(['a.passage warning', 'deep/d.passage hint', 'deep/skip/c.passage hint']);
    expect(levels('deep')).toEqual(['d.passage hint', 'skip/c.passage hint']);
    // What is named is meant.
    expect(levels('.', 'skip/b.passage')).toEqual(['skip/b.passage warning']);
    expect(levels('deep', '../a.passage')).toEqual(['../a.passage warning']);
    writeFileSync(join(place.path, 'deep/passagework.json'), '{ "rulez": {} }');
    expect(passagework(['check'], { cwd: place.path })).toMatchObject({
      code: 2,
      err: expect.stringMatching(/deep\/passagework\.json: there is no setting “rulez”; did you mean rules\?/),
    });
  },
  'the project’s baseline is used without being named': () => {
    using place = folder({ 'passagework.json': '{ "baseline": "known/all.json" }', 'deep/a.passage': UNPLAYABLE, 'known/x': '' });
    const at = (cwd: string, ...words: string[]) => passagework(['check', ...words], { cwd: join(place.path, cwd) });
    expect(at('.')).toMatchObject({ code: 1, err: expect.stringContaining('every finding counts') });
    expect(at('.', '--write-baseline', 'known/all.json').code).toBe(0);
    expect(at('.').code).toBe(0);
    expect(at('deep').code).toBe(0);
  },
});
