/**
 * What users of linters and formatters expect of a command, each with its test. Common practice, no source, but for: NO_COLOR
 * (no-color.org), `-` and `--` (POSIX.1-2024, XBD 12.2, guidelines 10 and 13), roff of man pages (man(7)).
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { XmlDocument } from 'libxml2-wasm';
import { describe, expect, it } from 'vitest';
import { createProgram } from '../../server/command/program';
import { CLEAN, folder, passagework, UNPLAYABLE } from './command';

const WARNED = '1/4 F#6o [third]\n';
const SLIP = '1/4 d5,  E5\n';

const CONVENTIONS: Readonly<Record<string, (at: string, run: (...words: string[]) => ReturnType<typeof passagework>) => void>> = {
  'without a name the current folder is checked': (_, run) => {
    expect(run('check')).toMatchObject({ code: 1, out: expect.stringContaining('in 5 files') });
  },
  'a folder without passages is told of, and fails': (at, run) => {
    mkdirSync(join(at, 'empty'));
    expect(run('check', 'empty')).toMatchObject({ code: 2, err: expect.stringContaining('There is no file ending in') });
  },
  '- is standard input, whatever else is named': (at) => {
    const { out } = passagework(['check', '-', 'clean.passage'], { input: UNPLAYABLE, cwd: at });
    expect(out).toMatch(/^standard input:1:5 error[\s\S]*in 2 files/);
  },
  '-- ends the options': (at, run) => {
    writeFileSync(join(at, '--odd.passage'), CLEAN);
    expect(run('check', '--', '--odd.passage')).toMatchObject({ code: 0 });
    rmSync(join(at, '--odd.passage'));
  },
  '--stdin-filepath names standard input and finds its players and its project': (at) => {
    const { out } = passagework(['check', '--stdin-filepath', 'deep/new.passage', '-'], {
      input: `player: kit.player\n${UNPLAYABLE}`,
      cwd: at,
    });
    expect(out).toMatch(/^deep\/new\.passage:2:5 error/);
    expect(out).not.toContain('player-file');
  },
  'format writes the usual spacing, --check only tells, --diff shows, - passes through': (at, run) => {
    const read = () => readFileSync(join(at, 'slip.passage'), 'utf8');
    expect(run('format', '--check', 'slip.passage')).toMatchObject({ code: 1, out: 'slip.passage is not in its usual form.\n' });
    expect(run('format', '--diff', 'slip.passage').out).toMatch(/^--- a\/slip\.passage\n\+\+\+ b\/slip\.passage\n@@/);
    expect(read()).toBe(SLIP);
    expect(run('format', 'slip.passage')).toMatchObject({ code: 0 });
    expect(read()).toBe('1/4 d5, E5\n');
    expect(run('format', '--check', 'slip.passage')).toMatchObject({ code: 0, out: '' });
    expect(passagework(['format', '-'], { input: '1/4   D5\r\n' })).toMatchObject({ code: 0, out: '1/4 D5\r\n' });
    writeFileSync(join(at, 'slip.passage'), SLIP);
  },
  '--fix does what is sure, --diff shows it, --unsafe-fixes also guesses': (at, run) => {
    const path = join(at, 'guess.passage');
    writeFileSync(path, 'tempo: fast\n1/0 H5, d5\n');
    expect(run('check', '--diff', 'guess.passage')).toMatchObject({ code: 1, out: expect.stringContaining('+1/0 H5 D5') });
    expect(readFileSync(path, 'utf8')).toBe('tempo: fast\n1/0 H5, d5\n');
    expect(run('check', '--fix', 'guess.passage').code).toBe(1);
    expect(readFileSync(path, 'utf8')).toBe('tempo: fast\n1/0 H5 D5\n');
    run('check', '--unsafe-fixes', 'guess.passage');
    expect(readFileSync(path, 'utf8')).toMatch(/^tempo: .*96.*\n1\/8 B5 D5\n$/);
    rmSync(path);
  },
  '--quiet shows errors only': (_, run) => {
    const { code, out } = run('check', '--quiet', 'warned.passage');
    expect([code, out]).toEqual([0, expect.stringMatching(/^Nothing to report in 1 file\. 1 below an error not shown\.\n$/)]);
  },
  '--max-warnings fails when there are more': (_, run) => {
    expect(run('check', '--max-warnings', '0', 'warned.passage')).toMatchObject({
      code: 1,
      err: expect.stringContaining('There are 1'),
    });
    expect(run('check', '--max-warnings', '1', 'warned.passage')).toMatchObject({ code: 0, err: '' });
    expect(run('check', '--max-warnings', 'few', '.')).toMatchObject({
      code: 2,
      err: expect.stringContaining('--max-warnings: few'),
    });
  },
  '--output-file takes the answer': (at, run) => {
    expect(run('check', '--format', 'json', '-o', 'report.json', '.')).toMatchObject({ code: 1, out: '' });
    expect(JSON.parse(readFileSync(join(at, 'report.json'), 'utf8')).diagnostics.length).toBeGreaterThan(0);
    expect(run('check', '-o', 'report.json', '.')).toMatchObject({ code: 2, err: expect.stringContaining('--force') });
    rmSync(join(at, 'report.json'));
  },
  '--format junit is well-formed XML that counts': (_, run) => {
    const document = XmlDocument.fromString(run('check', '--format', 'junit', '.').out);
    const count = (path: string) => document.find(path).length;
    expect(count('/testsuites/testsuite')).toBe(5);
    expect(count('//failure')).toBe(Number(document.root.attr('failures')?.value));
    expect(count('//testcase')).toBe(Number(document.root.attr('tests')?.value));
    expect(count('//testsuite[@failures="0"]/testcase')).toBeGreaterThan(0);
    document.dispose();
  },
  '--format github marks lines': (_, run) => {
    expect(run('check', '--format', 'github', 'unplayable.passage').out).toMatch(
      /^::error file=unplayable\.passage,line=1,col=5,endColumn=6,title=octave-slip::\S.*$/m,
    );
  },
  'no colour in a pipe, with NO_COLOR or --no-color': (_, run) => {
    expect(run('check', '--no-color', 'unplayable.passage').out).not.toContain('\x1b');
    expect(run('check', 'unplayable.passage').out).not.toContain('\x1b');
  },
  'a slip in a command or an option finds the nearest': (_, run) => {
    expect(run('chekc')).toMatchObject({
      code: 2,
      out: '',
      err: 'passagework: There is no command chekc. Did you mean check?\n',
    });
    expect(run('check', '--write-baselin', 'x')).toMatchObject({
      code: 2,
      err: expect.stringContaining("'--write-baselin'. Did you mean --write-baseline?"),
    });
  },
  'every command has --help and --version': (_, run) => {
    for (const words of [['--version'], ['check', '--version'], ['solve', '-v']])
      expect(run(...words).out).toMatch(/^\d+\.\d+\.\d+\n$/);
    for (const words of [['--help'], ['convert', '-h']]) expect(run(...words)).toMatchObject({ code: 0, err: '' });
  },
  'a port is a number': (_, run) => {
    expect(run('serve', '--socket', 'abc')).toMatchObject({ code: 2, err: expect.stringContaining('--socket: abc is no port') });
  },
  'diff --format json tells the same changes as the words': (at, run) => {
    writeFileSync(join(at, 'old.passage'), 'passage: Tide\n1/4 D5 D6o [III]\n');
    writeFileSync(join(at, 'now.passage'), 'passage: Tide\n1/4 D5 D6o [IV]\n');
    const { changes } = JSON.parse(run('diff', '--format', 'json', 'old.passage', 'now.passage').out);
    // The string is asked of D6 alone; D5 may follow it to another.
    expect(changes).toContainEqual(
      expect.objectContaining({
        passage: 'Tide',
        kind: 'fingering',
        bar: 1,
        note: 'D6',
        before: expect.stringContaining('III'),
        after: expect.stringContaining('IV'),
      }),
    );
    expect(run('diff', 'old.passage', 'now.passage').out.trim().split('\n')).toHaveLength(changes.length);
    rmSync(join(at, 'old.passage'));
    rmSync(join(at, 'now.passage'));
  },
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
  '--cache gives the same answer, and sees every change that matters': (_, __) => {
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
  'passagework.json says rules, hand and exclusions, from its folder down; .gitignore counts': (_, __) => {
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
  'the project’s baseline is used without being named': (_, __) => {
    using place = folder({ 'passagework.json': '{ "baseline": "known/all.json" }', 'deep/a.passage': UNPLAYABLE, 'known/x': '' });
    const at = (cwd: string, ...words: string[]) => passagework(['check', ...words], { cwd: join(place.path, cwd) });
    expect(at('.')).toMatchObject({ code: 1, err: expect.stringContaining('every finding counts') });
    expect(at('.', '--write-baseline', 'known/all.json').code).toBe(0);
    expect(at('.').code).toBe(0);
    expect(at('deep').code).toBe(0);
  },
  'completions name every command and option': (at, run) => {
    for (const shell of ['bash', 'zsh', 'fish']) {
      const { code, out } = run('completions', shell);
      expect(code).toBe(0);
      for (const { name, options } of createProgram().commands.map((each) => ({ name: each.name(), options: each.options }))) {
        expect(out).toContain(name);
        for (const { long } of options) expect(out).toContain(shell === 'fish' ? `-l ${long?.slice(2)}` : long);
      }
    }
    writeFileSync(join(at, 'words.bash'), run('completions', 'bash').out);
    const complete = (line: string) => {
      const words = line.split(' ');
      const set = `COMP_WORDS=(${words.map((word) => `'${word}'`).join(' ')}); COMP_CWORD=${words.length - 1}`;
      const script = `source ./words.bash; ${set}; _passagework; printf '%s\\n' "\${COMPREPLY[@]}"`;
      return spawnSync('bash', ['-c', script], { cwd: at, encoding: 'utf8' }).stdout.trim().split('\n').sort();
    };
    expect(complete('passagework ch')).toEqual(['check']);
    expect(complete('passagework check --wr')).toEqual(['--write-baseline']);
    expect(complete('passagework check cle')).toEqual(['clean.passage']);
    expect(run('completions', 'csh')).toMatchObject({ code: 2, err: expect.stringContaining('bash, zsh, fish') });
  },
};

describe('conventions', () => {
  it.each(Object.entries(CONVENTIONS))('%s', (_, holds) => {
    using place = folder({
      'clean.passage': CLEAN,
      'unplayable.passage': UNPLAYABLE,
      'warned.passage': WARNED,
      'slip.passage': SLIP,
      'deep/kit.player': 'hand: small\n',
    });
    holds(place.path, (...words) => passagework(words, { cwd: place.path }));
  });
});
