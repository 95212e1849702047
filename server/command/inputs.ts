import { existsSync, readFileSync, statSync } from 'node:fs';
import { sep } from 'node:path';
import { CannotRun } from './cannot-run';

/** What `-` on the command line becomes: the parser of options would drop a lone dash. */
export const STANDARD_INPUT = '/dev/stdin';

/** Endings of the files that `check` takes out of a folder. */
export const CHECKED: readonly string[] = ['passage', 'player'];

/**
 * The files that the words of a command line name, in their order and each once: `-` is standard input, a folder is
 * every `.passage` file in it, anything else that is no file is a glob.
 */
export async function findInputs(
  words: readonly string[],
  extensions: readonly string[] = ['passage'],
): Promise<readonly string[]> {
  if (words.length === 0) throw new CannotRun('Name a file, a folder or a pattern, or - for standard input.');
  const found: string[] = [];
  for (const word of words) {
    if (word === STANDARD_INPUT || isFile(word)) found.push(word);
    else found.push(...(await globbed(word, extensions)));
  }
  return [...new Set(found)];
}

async function globbed(word: string, extensions: readonly string[]): Promise<readonly string[]> {
  const { glob, isDynamicPattern } = await import('tinyglobby');
  const kinds = extensions.map((extension) => `**/*.${extension}`);
  const ignore = ['**/node_modules/**'];
  if (existsSync(word)) {
    const inside = await glob(kinds, { cwd: word, ignore, onlyFiles: true });
    const folder = word.replace(/[/\\]+$/, '');
    return inside.sort().map((path) => (folder === '.' ? path : `${folder}/${path}`));
  }
  if (!isDynamicPattern(word)) throw new CannotRun(`There is no file or folder ${word}.`);
  const matched = await glob(word.split(sep).join('/'), { ignore, onlyFiles: true });
  if (matched.length === 0) throw new CannotRun(`No file matches ${word}.`);
  return matched.sort();
}

/** A whole file, or all of standard input. */
export function readBytes(name: string): Uint8Array {
  try {
    return readFileSync(name === STANDARD_INPUT ? 0 : name);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new CannotRun(`Can't read ${name === STANDARD_INPUT ? 'standard input' : name}: ${reason}`);
  }
}

export function readInput(name: string): string {
  return textOf(readBytes(name));
}

/** Without a byte order mark: editors don't count it as a column either. */
export function textOf(bytes: Uint8Array): string {
  return new TextDecoder().decode(bytes);
}

function isFile(path: string): boolean {
  return existsSync(path) && !statSync(path).isDirectory();
}
