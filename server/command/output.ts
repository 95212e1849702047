import { existsSync, mkdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { CannotRun } from './cannot-run';

export interface Output {
  readonly path: string;
  /** The option that names it; absent where it follows from the name of the file read. */
  readonly option?: string | undefined;
  /** Write over what is there. */
  readonly force?: boolean | undefined;
  /** Files read, which are never written over, whatever was asked: what they say would be lost. */
  readonly sources: readonly string[];
}

/** Refuses a file that can't be written, or should not, before any work is done for it. */
export function checkOutput({ path, option = '--out', force, sources }: Output): void {
  const elsewhere = `choose another name with ${option}`;
  const folder = dirname(path);
  if (!existsSync(folder)) throw new CannotRun(`There is no folder ${folder} to write in. Make it first, or ${elsewhere}.`);
  if (!statSync(folder).isDirectory()) throw new CannotRun(`${folder} is a file, not a folder to write in: ${elsewhere}.`);
  if (!existsSync(path)) return;
  if (statSync(path).isDirectory()) throw new CannotRun(`${path} is a folder: ${elsewhere}, of a file in it for instance.`);
  if (sources.some((source) => isSame(source, path)))
    throw new CannotRun(`${path} is a file to read, and would be lost: ${elsewhere}.`);
  if (!force) throw new CannotRun(`${path} is there already. Choose another name with ${option}, or --force to write over it.`);
}

/** Makes the folder that a file is to be written in. */
export function makeFolder(path: string): void {
  try {
    mkdirSync(dirname(path), { recursive: true });
  } catch {
    // Something is in the way: `checkOutput` says what.
  }
}

export function writeOutput(path: string, content: string | Uint8Array): void {
  try {
    writeFileSync(path, content);
  } catch (error) {
    throw new CannotRun(`Can't write ${path}: ${error instanceof Error ? error.message : error}.`);
  }
}

/** One file, by whatever names. */
function isSame(a: string, b: string): boolean {
  if (!existsSync(a)) return false;
  const [one, other] = [a, b].map((path) => statSync(path, { bigint: true }));
  return one?.ino === other?.ino && one?.dev === other?.dev;
}
