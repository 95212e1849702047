import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { CannotRun } from './cannot-run';
import { fileAt, isFolder } from './file-at';
import { STANDARD_INPUT } from './inputs';
import { playersOf } from './player-files';

/** How the command line writes standard output (POSIX.1-2024, XBD 12.2, guideline 13). */
export const STANDARD_OUTPUT = '-';

export interface Output {
  readonly path: string;
  /** The option that names it; absent where it follows from the name of the file read. */
  readonly option?: string | undefined;
  /** Write over what is there. */
  readonly force?: boolean | undefined;
  /** True for a text that an earlier run wrote, which needs no force: the next run makes it again. */
  readonly ours?: (text: string) => boolean;
  /** Files read, which are never written over, whatever was asked: what they say would be lost. */
  readonly sources: readonly string[];
}

/** Everything that is read for these inputs: they themselves, the players that they name, and those of the command line. */
export function everythingRead(names: readonly string[], ...players: readonly (string | undefined)[]): readonly string[] {
  const named = names.filter((name) => name !== STANDARD_INPUT);
  return [...named, ...names.flatMap(playersOf), ...players.filter((path) => path !== undefined)];
}

/** Refuses a file that can't be written, or should not, before any work is done for it. */
export function checkOutput({ path, option = '--out', force, ours, sources }: Output): void {
  const elsewhere = `choose another name with ${option}`;
  if (path === STANDARD_OUTPUT) throw new CannotRun(`${option}: - stands for standard output, where this can't go. Name a file.`);
  const folder = dirname(path);
  if (!existsSync(folder)) throw new CannotRun(`There is no folder ${folder} to write in. Make it first, or ${elsewhere}.`);
  if (!isFolder(folder)) throw new CannotRun(`${folder} is a file, not a folder to write in: ${elsewhere}.`);
  const found = fileAt(path);
  if (!found) return;
  if (found.isDirectory()) throw new CannotRun(`${path} is a folder: ${elsewhere}, of a file in it for instance.`);
  if (sources.some((source) => isSame(source, path)))
    throw new CannotRun(`${path} is a file to read, and would be lost: ${elsewhere}.`);
  if (!force && !(found.isFile() && ours?.(readFileSync(path, 'utf8'))))
    throw new CannotRun(`${path} is there already. Choose another name with ${option}, or --force to write over it.`);
}

/** The file to write, where one is named; otherwise what is made goes to standard output. */
export function fileNamed(path: string | undefined): string | undefined {
  return path === STANDARD_OUTPUT ? undefined : path;
}

/** Makes the folder that a file is to be written in. */
export function makeFolder(path: string): void {
  try {
    mkdirSync(dirname(path), { recursive: true });
  } catch {
    // Something is in the way: `checkOutput` says what.
  }
}

/** Where a file goes: as named, or in the folder named, under the name given. */
export function placeIn(out: string, name: string): string {
  return isFolderName(out) ? join(out, name) : out;
}

/** True for a folder that is there, and for a name that can only be a folder's. */
export function isFolderName(path: string): boolean {
  return /[/\\]$/.test(path) || isFolder(path);
}

/** One file, by whatever names. */
function isSame(a: string, b: string): boolean {
  const [one, other] = [fileAt(a), fileAt(b)];
  return one !== undefined && one.ino === other?.ino && one.dev === other.dev;
}
