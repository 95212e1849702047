import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CLEAN, folder, UNPLAYABLE } from './command';

/** What the package for npm may hold; anything else is there by mistake. */
const PACKED =
  /^(package\.json|README\.md|LICENSE|CHANGELOG\.md|client\/examples\/[^/]+\.passage|server\/rules\/[a-z-]+\.md|dist\/(command|command-worker|command-pdf)\.cjs|dist\/entry\/worker\.js|dist\/fonts\/[a-z]+\.ttf|dist\/server\/node(-conversion)?\.js|dist\/NOTICES\.txt)$/;

/** What the extension may hold. */
const EXTENSION =
  /^(package\.json|README\.md|LICENSE|CHANGELOG\.md|client\/(examples|guide|media|walkthrough)\/[^/]+|client\/snippets\.json|grammar\/[^/]+\.json|server\/rules\/[a-z-]+\.md|dist\/(client|server)\/(node|browser)(-conversion)?\.js|dist\/(webview|measure)\.js|dist\/NOTICES\.txt)$/;

describe('the package for npm', () => {
  it('holds the command and nothing else, and runs where only it is installed', () => {
    using place = folder({ 'package.json': '{"private":true}' });
    const at = { cwd: place.path, encoding: 'utf8' } as const;
    const [packed] = JSON.parse(
      execFileSync('npm', ['pack', resolve('.'), '--json', '--ignore-scripts'], { ...at, stdio: ['ignore', 'pipe', 'ignore'] }),
    );
    expect(packed.files.map(({ path }: { path: string }) => path).filter((path: string) => !PACKED.test(path))).toEqual([]);
    execFileSync('npm', ['install', '--offline', '--no-audit', '--no-fund', packed.filename], { ...at, stdio: 'ignore' });

    const command = join(place.path, 'node_modules/.bin/passagework');
    const solved = spawnSync(command, ['solve', '-'], { ...at, input: CLEAN });
    expect(solved).toMatchObject({ status: 0, stderr: '' });
    expect(solved.stdout).toMatch(/^1:1 +D5/m);
    const printed = spawnSync(command, ['sheet', '-', '--out', 'sheet.pdf'], { ...at, input: CLEAN });
    expect(printed).toMatchObject({ status: 0, stderr: '' });
    expect(readFileSync(join(place.path, 'sheet.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
    // Enough files for the threads, which are programs of their own.
    using many = folder(Object.fromEntries(Array.from({ length: 30 }, (_, i) => [`${i}.passage`, UNPLAYABLE])));
    expect(spawnSync(command, ['check', many.path], at).stdout).toContain('in 30 files');
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
