import { spawnSync } from 'node:child_process';
import { realpathSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { CannotRun } from './cannot-run';
import { note } from './say';

/**
 * Those of the files that git finds changed against a commit (by default the last one), new ones among them. What a change
 * reaches through a player file or a project file is not followed.
 */
export function changedOnly(names: readonly string[], since = 'HEAD'): readonly string[] {
  const top = git(['rev-parse', '--show-toplevel']).trimEnd();
  git(['rev-parse', '--verify', '--quiet', '--end-of-options', `${since}^{commit}`], `--since: git knows no commit ${since}.`);
  const changed = git(['diff', '--name-only', '-z', '--diff-filter=d', '--end-of-options', since, '--']);
  const unknown = git(['ls-files', '--full-name', '--others', '--exclude-standard', '-z', '--', top]);
  const paths = new Set(
    `${changed}${unknown}`
      .split('\0')
      .filter(Boolean)
      .map((path) => join(top, path)),
  );
  const kept = names.filter((name) => paths.has(real(name)));
  if (kept.length === 0) note(`No passage has changed since ${since}.`);
  return kept;
}

function git(
  words: readonly string[],
  wrong = '--changed asks git what has changed, and this folder is in no checkout of git.',
): string {
  const { status, stdout, error } = spawnSync('git', words, { encoding: 'utf8', maxBuffer: 1 << 28 });
  if (error) throw new CannotRun('--changed asks git what has changed, and there is no git here.');
  if (status !== 0) throw new CannotRun(wrong);
  return stdout;
}

function real(name: string): string {
  try {
    return realpathSync(name);
  } catch {
    return resolve(name);
  }
}
