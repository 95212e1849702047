/**
 * What users of linters and formatters expect of a command, each with its test. Common practice, no source, but for: NO_COLOR
 * (no-color.org), `-` and `--` (POSIX.1-2024, XBD 12.2, guidelines 10 and 13), roff of man pages (man(7)).
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { XmlDocument } from 'libxml2-wasm';
import { expect } from 'vitest';
import { createProgram } from '../../server/command/program';
import { CLEAN, passagework, UNPLAYABLE } from './command';
import { conventions, SLIP } from './conventions';

conventions({
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
  'no colour in a pipe, with NO_COLOR or --no-color': (at) => {
    const colours = (env: NodeJS.ProcessEnv, ...words: string[]) =>
      passagework(['check', ...words, 'unplayable.passage'], { cwd: at, env }).out.includes('\x1b');
    expect(colours({})).toBe(false);
    expect(colours({ FORCE_COLOR: '1' })).toBe(true);
    expect(colours({ FORCE_COLOR: '1', NO_COLOR: '1' })).toBe(false);
    expect(colours({ FORCE_COLOR: '1' }, '--no-color')).toBe(false);
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
  '- is standard output where an answer goes, and no file anywhere': (at, run) => {
    expect(run('check', '-o', '-', 'clean.passage')).toEqual(run('check', 'clean.passage'));
    expect(run('exercises', 'clean.passage', '--out', '-').out).toContain('passage:');
    expect(run('convert', 'clean.passage', '--to', 'musicxml', '--out', '-').out).toContain('<score-partwise');
    for (const words of [
      ['solve', 'clean.passage', '--page', '-'],
      ['check', 'clean.passage', '--write-baseline', '-'],
      ['check', 'clean.passage', '--cache-file', '-'],
    ]) {
      const { code, err } = run(...words);
      expect([words, code, err]).toEqual([words, 2, expect.stringContaining(`${words[2]}: - stands for standard output`)]);
    }
    expect(run('sheet', 'clean.passage', '-o', '-')).toMatchObject({ code: 2, err: expect.stringMatching(/^passagework: -o: /) });
    expect(existsSync(join(at, '-'))).toBe(false);
  },
  'an option is named as it was typed': (_, run) => {
    expect(run('check', '-o', 'nowhere/x').err).toMatch(/choose another name with -o\.\n$/);
    expect(run('check', '--output-file', 'nowhere/x').err).toMatch(/choose another name with --output-file\.\n$/);
    expect(run('sheet', '-onowhere/x.pdf').err).toMatch(/choose another name with -o\.\n$/);
  },
  'help COMMAND is COMMAND --help': (_, run) => {
    expect(run('help', 'check')).toEqual(run('check', '--help'));
    expect(run('help')).toEqual(run('--help'));
    expect(run('help', 'chekc')).toMatchObject({ code: 2, err: expect.stringContaining('Did you mean check?') });
  },
  'explain finds the nearest page': (_, run) => {
    expect(run('explain', 'octave-slp')).toMatchObject({ code: 2, err: expect.stringContaining('Did you mean octave-slip?') });
  },
  'the manual page is one that man can read': (_, run) => {
    const { code, out } = run('manual');
    expect([code, /^\.TH PASSAGEWORK 1[ -~\n]*$/.test(out)]).toEqual([0, true]);
    for (const { name, options } of createProgram().commands.map((each) => ({ name: each.name(), options: each.options })))
      for (const { long } of options) expect([name, out.replaceAll('\\-', '-').includes(long ?? '')]).toEqual([name, true]);
    const shown = spawnSync('groff', ['-man', '-Tutf8', '-ww'], { input: out, encoding: 'utf8' });
    // Not every machine has it.
    if (!shown.error) expect([shown.stderr, shown.stdout.length > out.length / 2]).toEqual(['', true]);
  },
  'every command has --help and --version': (_, run) => {
    for (const words of [['--version'], ['check', '--version'], ['solve', '-v']])
      expect(run(...words).out).toMatch(/^\d+\.\d+\.\d+\n$/);
    for (const words of [['--help'], ['convert', '-h']]) expect(run(...words)).toMatchObject({ code: 0, err: '' });
  },
  'a port is a number': (_, run) => {
    expect(run('serve', '--socket', 'abc')).toMatchObject({
      code: 2,
      err: expect.stringContaining('--socket: abc is not a port'),
    });
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
});
