import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import manifest from '../../package.json';
import { CLEAN, folder, UNPLAYABLE } from './command';

/** What the package for npm may hold; anything else is there by mistake. */
const PACKED =
  /^(package\.json|(README|CHANGELOG|CONTRIBUTING|SECURITY|DEVELOPERS)\.md|LICENSE|client\/examples\/[^/]+\.(passage|player)|client\/(guide|schemas|pictures)\/[^/]+\.(md|json|png)|server\/rules\/[a-z-]+\.md|dist\/(command|command-program|command-worker|pdf|library)\.cjs|dist\/(library|report)\.d\.ts|dist\/passagework\.1|dist\/sbom\.json|dist\/entry\/worker\.js|dist\/fonts\/[a-z]+\.ttf|dist\/server\/node(-conversion)?\.js|dist\/NOTICES\.txt)$/;

/** What the extension may hold. */
const EXTENSION =
  /^(package\.json|(README|CHANGELOG|CONTRIBUTING|SECURITY|DEVELOPERS)\.md|LICENSE|client\/(examples|guide|media|pictures|schemas|walkthrough)\/[^/]+|client\/l10n\/bundle\.l10n\.json|package\.nls\.json|grammar\/[^/]+\.json|server\/rules\/[a-z-]+\.md|dist\/(client|server)\/(node|browser)(-conversion)?\.js|dist\/(webview|measure)\.js|dist\/pdf\.cjs|dist\/fonts\/[a-z]+\.ttf|dist\/NOTICES\.txt|dist\/sbom\.json)$/;

const GUIDE = readFileSync('client/guide/command.md', 'utf8');
/** The nth block of a language in the guide's page on the command, exactly as printed. */
const printed = (kind: string, nth: number) =>
  [...GUIDE.matchAll(new RegExp(`^\`\`\`${kind}\\n([\\s\\S]*?)^\`\`\`$`, 'gm'))][nth]?.[1] ?? '';

const tarball = resolve('out/passagework.tgz');
/** Nothing may be fetched: what an instruction needs is at hand, or the instruction is wrong. */
const env = { ...process.env, npm_config_offline: 'true', npm_config_audit: 'false', npm_config_fund: 'false', CI: 'true' };

/** Runs lines of shell as somebody would who pastes them. */
function pasted(lines: string, cwd: string, more: NodeJS.ProcessEnv = {}) {
  return spawnSync('bash', ['-ec', lines], { cwd, encoding: 'utf8', env: { ...env, ...more } });
}

/** A project with the command installed for it, as the guide says. */
function project(files: Readonly<Record<string, string>>) {
  const made = folder({ 'package.json': '{"name":"studies","private":true}', '.gitignore': 'node_modules\n', ...files });
  writeFileSync(join(made.path, 'passagework.tgz'), readFileSync(tarball));
  expect(pasted(printed('sh', 1), made.path)).toMatchObject({ status: 0, stdout: expect.stringContaining(manifest.version) });
  return made;
}

beforeAll(() => {
  expect(spawnSync(process.execPath, ['pack.mjs'], { encoding: 'utf8' })).toMatchObject({ status: 0 });
});

describe('the package for npm', () => {
  it('holds what it needs, and every link of its pages leads to something in it', () => {
    const listed = execFileSync('tar', ['-tzf', tarball], { encoding: 'utf8' }).trim().split('\n');
    const files = listed.map((path) => path.replace(/^package\//, ''));
    expect(files.filter((path) => !PACKED.test(path))).toEqual([]);
    for (const page of files.filter((path) => path.endsWith('.md') && path !== 'DEVELOPERS.md')) {
      for (const [, to = ''] of readFileSync(page, 'utf8')
        .replace(/^```[\s\S]*?^```$/gm, '')
        .matchAll(/\]\((?!\w+:)([^)#\s]+)/g))
        expect([page, files.includes(join(dirname(page), to))]).toEqual([page, true]);
    }
    for (const path of [manifest.bin.passagework, ...manifest.man, manifest.exports['.'].types, manifest.exports['.'].default])
      expect(files).toContain(path.replace('./', ''));
  });

  it('installs for everybody as the guide says, and runs', () => {
    using place = folder({});
    // Its first lines, install and build in a clone, have been run to get here.
    const [, , install = '', run = ''] = printed('sh', 0).trim().split('\n');
    expect(install).toBe('npm install --global ./out/passagework.tgz');
    const prefix = { npm_config_prefix: place.path, PATH: `${place.path}/bin:${process.env.PATH}` };
    expect(pasted(install, process.cwd(), prefix)).toMatchObject({ status: 0 });
    expect(pasted(run, place.path, prefix)).toMatchObject({ status: 0, stdout: `${manifest.version}\n` });
    expect(existsSync(join(place.path, 'share/man/man1/passagework.1'))).toBe(true);

    const command = join(place.path, 'bin/passagework');
    const at = { cwd: place.path, encoding: 'utf8' } as const;
    const solved = spawnSync(command, ['solve', '-'], { ...at, input: CLEAN });
    expect(solved).toMatchObject({ status: 0, stderr: '' });
    expect(solved.stdout).toMatch(/^1:1 +D5/m);
    expect(spawnSync(command, ['sheet', '-', '--out', 'sheet.pdf'], { ...at, input: CLEAN })).toMatchObject({
      status: 0,
      stderr: '',
    });
    expect(readFileSync(join(place.path, 'sheet.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
    // Enough files for the threads, which are programs of their own.
    using many = folder(Object.fromEntries(Array.from({ length: 30 }, (_, i) => [`${i}.passage`, UNPLAYABLE])));
    expect(spawnSync(command, ['check', many.path], at).stdout).toContain('in 30 files');
  });

  it('is a library with types, as the guide shows it', () => {
    using place = project({
      'a.ts':
        "import { check, type Report, solve } from 'passagework';\nconst report: Report = solve('D5');\ncheck('D5', { hand: 'small' });\n// @ts-expect-error There is no such option.\ncheck('D5', { hnad: 'small' });\nexport { report };\n",
    });
    writeFileSync(join(place.path, 'a.cjs'), printed('js', 0));
    const ran = spawnSync(process.execPath, ['a.cjs'], { cwd: place.path, encoding: 'utf8' });
    expect(ran).toMatchObject({ status: 0, stderr: '' });
    expect(ran.stdout).toMatch(/^1 1 III 1\n/);
    expect(ran.stdout).toMatch(/can't be played on this violin[\s\S]*\n1\/4 D5 E5\n$/);
    const tsc = resolve('node_modules/typescript/bin/tsc');
    const typed = spawnSync(process.execPath, [tsc, '--noEmit', '--strict', '--module', 'nodenext', 'a.ts'], {
      cwd: place.path,
      encoding: 'utf8',
    });
    expect(typed).toMatchObject({ status: 0, stdout: '' });
  });

  it('asks of Node what its parts ask, but for the parser', () => {
    const { components } = JSON.parse(readFileSync('dist/sbom.json', 'utf8'));
    const require = createRequire(import.meta.url);
    const least = /(\d+)\.(\d+)/.exec(manifest.engines.node)!.slice(1).map(Number) as [number, number];
    const newer = components.filter(({ group, name }: { group?: string; name: string }) => {
      const asked: string =
        JSON.parse(readFileSync(join('node_modules', group ?? '', name, 'package.json'), 'utf8')).engines?.node ?? '*';
      const satisfied: (version: string, range: string) => boolean = require('semver').satisfies;
      return !satisfied(`${least[0]}.${least[1]}.0`, asked);
    });
    expect(newer.map(({ name }: { name: string }) => name)).toEqual(['chevrotain']);
    expect(components.length).toBeGreaterThan(20);
    for (const { type, name, version, purl } of components)
      expect([type, purl]).toEqual(['library', expect.stringContaining(`${encodeURIComponent(name)}@${version}`)]);
  });
});

describe('recipes, exactly as printed', () => {
  const git = (cwd: string, ...words: string[]) =>
    spawnSync('git', ['-c', 'user.name=Kit', '-c', 'user.email=kit@coast.example', ...words], { cwd, encoding: 'utf8', env });

  it('the hook checks what is staged, and lets nothing else through or in the way', () => {
    using place = project({ 'a.passage': CLEAN, 'kit.player': 'hand: small\n' });
    git(place.path, 'init', '-q');
    mkdirSync(join(place.path, '.git/hooks'), { recursive: true });
    const hook = join(place.path, '.git/hooks/pre-commit');
    const [script = ''] = [...GUIDE.matchAll(/^```sh\n(#!\/bin\/sh\n[\s\S]*?)^```$/gm)].map(([, text]) => text!);
    writeFileSync(hook, script);
    chmodSync(hook, 0o755);
    const commit = () => git(place.path, 'commit', '-qm', 'one');
    git(place.path, 'add', '.');
    expect(commit()).toMatchObject({ status: 0 });
    // Staged faulty, mended in the working tree only.
    writeFileSync(join(place.path, 'b c.passage'), `player: kit.player\n${UNPLAYABLE}`);
    git(place.path, 'add', '.');
    writeFileSync(join(place.path, 'b c.passage'), CLEAN);
    const refused = commit();
    expect(refused.status).not.toBe(0);
    expect(refused.stdout + refused.stderr).toMatch(/b c\.passage:2:5 error/);
    // Staged mended, faulty in the working tree only.
    git(place.path, 'add', '.');
    writeFileSync(join(place.path, 'b c.passage'), UNPLAYABLE);
    expect(commit()).toMatchObject({ status: 0 });
    // Nothing of ours is staged.
    writeFileSync(join(place.path, 'notes.txt'), 'Tune the piano.');
    git(place.path, 'add', 'notes.txt');
    expect(commit()).toMatchObject({ status: 0 });
  });

  it('the CI job lets in what the baseline has, and writes its report', () => {
    const [record = '', step = ''] = [
      ...GUIDE.matchAll(/^```sh\n((?:npm ci\n)?npx --no -- passagework (?:check --write|format)[\s\S]*?)^```$/gm),
    ].map(([, text]) => text!);
    using place = project({ 'a.passage': UNPLAYABLE, 'passagework.json': '{ "baseline": "baseline.json" }' });
    expect(pasted(record, place.path)).toMatchObject({ status: 0 });
    expect(pasted(step, place.path)).toMatchObject({ status: 0 });
    const { runs } = JSON.parse(readFileSync(join(place.path, 'passages.sarif'), 'utf8'));
    expect(runs[0].results[0].baselineState).toBe('unchanged');
    writeFileSync(join(place.path, 'b.passage'), UNPLAYABLE);
    expect(pasted(`${step} --force`, place.path).status).not.toBe(0);
  });

  it('every command that the papers name runs as printed, and answers as printed', () => {
    using place = project({
      'study.passage': `player: ines.player\n${CLEAN}`,
      'ines.player': 'hand: medium\n',
      'mattis.player': 'hand: large\n',
      'old.passage': CLEAN,
      'new.passage': CLEAN,
    });
    const run = (line: string) => pasted(line, place.path, { PATH: `${place.path}/node_modules/.bin:${process.env.PATH}` });
    for (const out of ['score.musicxml', 'take.wav'])
      expect(run(`passagework convert study.passage --out ${out}`)).toMatchObject({ status: 0, stderr: '' });
    const papers = ['README.md', ...readdirSync('client/guide').map((page) => `client/guide/${page}`)];
    const named = papers.flatMap((path) =>
      [...readFileSync(path, 'utf8').matchAll(/`(passagework [a-z]+ [^`]+)`/g)].map(([, line = '']) => line),
    );
    // The reference prints the form of a command, with capitals or brackets for what stands there.
    const lines = new Set(named.filter((line) => !/[<[]|\b[A-Z]+\b/.test(line)));
    expect(lines.size).toBeGreaterThan(8);
    for (const line of lines) {
      const { status, stderr } = run(line);
      // A server without an editor ends, and says so by its number.
      expect([line, status, stderr]).toEqual([line, line.includes('serve') ? 1 : 0, expect.not.stringContaining('rror')]);
    }
    const [, shown = '', answer = ''] =
      /^```console\n\$ (.*)\n\n([\s\S]*?)…\n```$/m.exec(readFileSync('README.md', 'utf8')) ?? [];
    expect(answer.length).toBeGreaterThan(100);
    expect(run(shown).stdout).toContain(answer);
  });

  it('never let npm ask a registry for the name', () => {
    for (const path of ['README.md', 'DEVELOPERS.md', 'client/guide/command.md'])
      for (const [whole] of readFileSync(path, 'utf8').matchAll(/np[xm](?: exec)? [^\n`]*passagework(?= )/g))
        expect(whole).toMatch(/^npx --no -- passagework$|\.tgz|^npm install/);
    using place = folder({ 'package.json': '{"private":true}' });
    const { npm_config_offline: _, ...online } = env;
    const ran = spawnSync('npx', ['--no', '--', 'passagework', '--version'], { cwd: place.path, encoding: 'utf8', env: online });
    expect(ran.status).not.toBe(0);
    expect(ran.stdout).toBe('');
  });
});

describe('the extension', () => {
  it('holds what it loads and the papers, nothing that builds or tests it', () => {
    const listed = execFileSync('npx', ['vsce', 'ls', '--no-dependencies'], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    const files = listed.split('\n').filter(Boolean);
    expect(files).toContain('dist/server/browser.js');
    expect(files.filter((path) => !EXTENSION.test(path))).toEqual([]);
  });
});
