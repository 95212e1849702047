import { existsSync, readFileSync, realpathSync, type Stats, statSync } from 'node:fs';
import { sep } from 'node:path';
import { CannotRun } from './cannot-run';
import { type Decoded, decode } from './decode';
import { isFolder } from './file-at';
import { isExcluded } from './project';

/** How the command line writes standard input. */
export const STANDARD_INPUT = '-';

/** Endings of the files that `check` takes out of a folder. */
export const CHECKED: readonly string[] = ['passage', 'player'];

/**
 * The files that the words of a command line name, in their order and each once: `-` is standard input, a folder is
 * every file in it with one of the `endings`, anything else that is no file is a glob. Without words the current folder.
 *
 * @param named endings of files that may be named besides
 */
export async function findInputs(
  words: readonly string[],
  endings: readonly string[] = ['passage'],
  named: readonly string[] = endings,
): Promise<readonly string[]> {
  const found: string[] = [];
  for (const word of words.length > 0 ? words : ['.']) {
    if (word === STANDARD_INPUT) found.push(word);
    else if (isFolder(word)) found.push(...(await inFolder(word, endings)));
    else if (existsSync(word)) found.push(checkedFile(word, named));
    else found.push(...(await matching(word, named)));
  }
  return [...new Set(found)];
}

async function inFolder(folder: string, endings: readonly string[]): Promise<readonly string[]> {
  const { glob } = await import('tinyglobby');
  const kinds = endings.map((ending) => `**/*.${ending}`);
  const inside = await glob(kinds, { ...GLOBBED, cwd: folder });
  const name = folder.replace(/(?<=.)[/\\]+$/, '');
  const paths = inside.sort().map((path) => (name === '.' ? path : `${name.replace(/\/$/, '')}/${path}`));
  const own = paths.filter((path) => !isExcluded(path));
  if (own.length > 0) return own;
  throw new CannotRun(`There is no file ending in ${endings.map((ending) => `.${ending}`).join(' or ')} in ${folder}.`);
}

async function matching(word: string, endings: readonly string[]): Promise<readonly string[]> {
  const { glob, isDynamicPattern } = await import('tinyglobby');
  if (!isDynamicPattern(word)) throw new CannotRun(`There is no file or folder ${word}.`);
  const matched = await glob(word.split(sep).join('/'), GLOBBED);
  const own = matched.filter((path) => hasEnding(path, endings) && !isExcluded(path));
  if (own.length === 0) throw new CannotRun(`No file matches ${word}.`);
  return own.sort();
}

/** Links are not followed: what they lead to inside a folder is found there, and what lies outside was not asked for. */
const GLOBBED = { ignore: ['**/node_modules/**'], onlyFiles: true, followSymbolicLinks: false } as const;

/** A file that somebody names may be anywhere, but what it holds is shown only where it says of itself that it is ours. */
function checkedFile(path: string, endings: readonly string[]): string {
  const kinds = endings.map((ending) => `.${ending}`).join(', ');
  if (!hasEnding(path, endings))
    throw new CannotRun(
      `${path} is not read: its name ends in none of ${kinds}. Rename it, or give its text as standard input: -.`,
    );
  const kind = unreadable(statSync(path));
  if (kind) throw new CannotRun(`${path} is ${kind}, and only files are read. Its text may come as standard input: -.`);
  if (!hasEnding(realpathSync(path), endings))
    throw new CannotRun(`${path} is a link to a file whose name ends in none of ${kinds}, so it is not read.`);
  return path;
}

/** What something is that can't be read to its end, or not twice; undefined for a file. */
function unreadable(found: Stats): string | undefined {
  if (found.isFile()) return undefined;
  return found.isDirectory() ? 'a folder' : found.isFIFO() ? 'a pipe' : found.isSocket() ? 'a socket' : 'a device';
}

function hasEnding(path: string, endings: readonly string[]): boolean {
  return endings.some((ending) => path.toLowerCase().endsWith(`.${ending}`));
}

/** A whole file, or all of standard input. */
export function readBytes(name: string): Buffer {
  try {
    const kind = name === STANDARD_INPUT ? undefined : unreadable(statSync(name));
    if (kind) throw new Error(`it is ${kind}, and only files are read`);
    return readFileSync(name === STANDARD_INPUT ? 0 : name);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new CannotRun(`Can't read ${inputName(name)}: ${reason}`);
  }
}

export function readInput(name: string): string {
  return strictText(readBytes(name), name).text;
}

/** @throws CannotRun where it is not UTF-8 */
export function strictText(bytes: Uint8Array, name: string): Decoded {
  return decode(bytes, inputName(name));
}

/** What messages call an input. */
export function inputName(name: string): string {
  return name === STANDARD_INPUT ? 'standard input' : name;
}

/** As reports name it: with `/`, and absent for standard input. */
export function reportedName(name: string): string | undefined {
  return name === STANDARD_INPUT ? undefined : name.replaceAll('\\', '/');
}
