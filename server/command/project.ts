import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import ignore, { type Ignore } from 'ignore';
import { PROJECT_FILE } from '../protocol/settings';
import { leavesOut, type Project, readProject } from '../workspace/project';
import { CannotRun } from './cannot-run';
import { isFile } from './file-at';

/** A project file and the folder that it holds for. */
export interface Located {
  readonly folder: string;
  readonly project: Project;
}

const found = new Map<string, Located | undefined>();

/**
 * The project of a file: the nearest `passagework.json` in its folder or above. Standard input belongs to the current folder.
 *
 * @throws CannotRun where the project file has faults: a check that silently leaves half of its rules out is worse than none
 */
export function projectOf(name: string | undefined): Located | undefined {
  return inOrAbove(dirname(resolve(name ?? '-')));
}

function inOrAbove(folder: string): Located | undefined {
  if (found.has(folder)) return found.get(folder);
  const path = join(folder, PROJECT_FILE);
  const above = dirname(folder);
  const here = isFile(path) ? { folder, project: projectAt(path) } : above === folder ? undefined : inOrAbove(above);
  found.set(folder, here);
  return here;
}

function projectAt(path: string): Project {
  const { project, faults } = readProject(readFileSync(path, 'utf8'));
  if (faults.length > 0) throw new CannotRun(`${relative('.', path)}: ${faults.join('; ')}.`);
  return project;
}

/** True for a file of a folder that its project excludes or that git ignores. A file that somebody names is never asked about. */
export function isExcluded(name: string): boolean {
  const path = resolve(name);
  const own = projectOf(name);
  if (own && leavesOut(own.project, relative(own.folder, path).replaceAll('\\', '/'))) return true;
  return ignoredByGit(path);
}

/** As git does it: each folder from the top of the checkout down may say what it ignores, and the deepest that says something is right. */
function ignoredByGit(path: string): boolean {
  const top = checkoutOf(dirname(path));
  if (top === undefined) return false;
  for (let folder = dirname(path); ; folder = dirname(folder)) {
    const said = gitRules(folder)?.test(relative(folder, path).replaceAll('\\', '/'));
    if (said?.ignored || said?.unignored) return said.ignored;
    if (folder === top) return false;
  }
}

const checkouts = new Map<string, string | undefined>();

function checkoutOf(folder: string): string | undefined {
  if (checkouts.has(folder)) return checkouts.get(folder);
  const above = dirname(folder);
  const top = existsSync(join(folder, '.git')) ? folder : above === folder ? undefined : checkoutOf(above);
  checkouts.set(folder, top);
  return top;
}

const rulesOf = new Map<string, Ignore | undefined>();

function gitRules(folder: string): Ignore | undefined {
  if (rulesOf.has(folder)) return rulesOf.get(folder);
  const path = join(folder, '.gitignore');
  const rules = isFile(path) ? ignore().add(readFileSync(path, 'utf8')) : undefined;
  rulesOf.set(folder, rules);
  return rules;
}
