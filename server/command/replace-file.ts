import {
  accessSync,
  closeSync,
  constants,
  fchmodSync,
  fchownSync,
  fsyncSync,
  openSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  type Stats,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { CannotRun } from './cannot-run';
import { fileAt } from './file-at';

/** A text in one piece or, where it may be too long for a string, in several. */
export type Content = string | Uint8Array | Iterable<string>;

/**
 * The one door through which the command writes: the new text goes into a file beside the old one, is brought to the disk, and
 * takes the old one's name in one step. Whatever happens on the way, there is the old file or the new one. Mode, owner and a link
 * to the file stay; a device or a pipe is written to as it is.
 *
 * (Packages for this call `write` once, and a disk that is nearly full takes a part and reports no error.)
 *
 * @param unless leaves a file alone that no longer holds these bytes: somebody has saved it meanwhile
 * @throws CannotRun with the reason in plain words
 */
export function replaceFile(path: string, content: Content, unless?: Uint8Array): void {
  try {
    const found = fileAt(path);
    if (found && !found.isFile()) {
      writeAll(path, content);
      return;
    }
    const target = found ? realpathSync(path) : path;
    if (found) writable(target, found);
    const beside = join(dirname(target), `.passagework-${crypto.randomUUID().slice(0, 8)}.tmp`);
    try {
      write(beside, content, found);
      if (unless && !readFileSync(target).equals(unless))
        throw new CannotRun(`${path} has changed while it was worked on, so it is left as it is. Run the command again.`);
      renameSync(beside, target);
    } catch (error) {
      rmSync(beside, { force: true });
      throw error;
    }
    toDisk(dirname(target));
  } catch (error) {
    if (error instanceof CannotRun) throw error;
    throw new CannotRun(`Can't write ${path}: ${reasonOf(error as NodeJS.ErrnoException)}.`);
  }
}

/** A name can be given to another file even where the one that has it may not be written: so that is asked first. */
function writable(path: string, { mode }: Stats): void {
  if ((mode & 0o222) === 0) throw Object.assign(new Error('read-only'), { code: 'READONLY' });
  accessSync(path, constants.W_OK);
}

function write(path: string, content: Content, like: Stats | undefined): void {
  const file = openSync(path, 'wx', like ? 0o600 : 0o666);
  try {
    if (like) {
      keepOwner(file, like);
      fchmodSync(file, like.mode & 0o7777);
    }
    // Goes on until all is written, as a single `write` need not.
    writeAll(file, content);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

function writeAll(file: number | string, content: Content): void {
  if (typeof content === 'string' || content instanceof Uint8Array) writeFileSync(file, content);
  else for (const piece of content) writeFileSync(file, piece, { flag: 'a' });
}

function keepOwner(file: number, { uid, gid }: Stats): void {
  try {
    fchownSync(file, uid, gid);
  } catch {
    // Only a superuser may; whoever else may write here owns the file or its folder.
  }
}

/** The name as well as the text. Not every system can; there the text is on the disk and the name soon. */
function toDisk(folder: string): void {
  try {
    const opened = openSync(folder, 'r');
    fsyncSync(opened);
    closeSync(opened);
  } catch {
    // Nothing is lost by it.
  }
}

const REASONS: Readonly<Record<string, string>> = {
  READONLY: 'it is marked as read-only',
  EACCES: 'you have no right to write there',
  EPERM: 'you have no right to write there',
  EROFS: 'the disk is read-only',
  ENOSPC: 'there is no space left on the disk',
  EDQUOT: 'your share of the disk is used up',
  EFBIG: 'it would be larger than files may be here',
  ENAMETOOLONG: 'its name is too long',
};

function reasonOf({ code = '', message }: NodeJS.ErrnoException): string {
  return REASONS[code] ?? message;
}
