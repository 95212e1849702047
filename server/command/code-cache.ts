import { chmodSync, mkdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import { replaceFile } from './replace-file';

/** Length of what stands before the code: its checksum (V8 itself runs into the ground with spoilt code), which file it is of, and of which V8. */
const HEAD = 512;
const CHECKSUM = 11;

/**
 * The compiled code of one command, in the user's folder for such things. It is only ever a copy: whatever is wrong with it, or with
 * the folder, the program is compiled anew. Code is run as it is found, so it is taken from nobody but this user.
 */
export class CodeCache {
  /** What was kept, if it is of this very file. */
  readonly found: Buffer | undefined;

  private constructor(
    private readonly folder: string,
    private readonly file: string,
    private readonly head: string,
  ) {
    this.found = this.read();
  }

  /** Undefined where nothing is to be kept: `NODE_DISABLE_COMPILE_CACHE`, as Node itself calls it, or no folder for it. */
  static of(program: string, command = ''): CodeCache | undefined {
    const folder = folderFor(process.env);
    if (folder === undefined || process.env.NODE_DISABLE_COMPILE_CACHE || !/^[a-z]{2,20}$/.test(command)) return undefined;
    // A file that is written anew has another time of change, whatever time of writing a package gives it.
    const { size, ctimeMs, ino } = statSync(program);
    const head = JSON.stringify([program, size, ctimeMs, ino, process.versions.v8, process.arch]);
    if (Buffer.byteLength(head) > HEAD - CHECKSUM) return undefined;
    return new CodeCache(folder, join(folder, `${command}.code`), head);
  }

  private read(): Buffer | undefined {
    try {
      const kept = readFileSync(this.file);
      if (!isMine(this.file) || !isMine(this.folder)) return undefined;
      const code = kept.subarray(HEAD);
      return kept.subarray(0, HEAD).equals(this.headOf(code)) ? code : undefined;
    } catch {
      return undefined;
    }
  }

  private headOf(code: Buffer): Buffer {
    const head = Buffer.alloc(HEAD, ' ');
    head.write(`${crc32(code)} ${this.head}`);
    return head;
  }

  /** Keeps the code for the next start. */
  keep(made: () => Buffer): void {
    try {
      mkdirSync(this.folder, { recursive: true, mode: 0o700 });
      if (!isMine(this.folder)) return;
      const code = made();
      replaceFile(this.file, Buffer.concat([this.headOf(code), code]));
      chmodSync(this.file, 0o600);
    } catch {
      // The next start compiles as this one did.
    }
  }
}

/** Where this system keeps what may be thrown away at any time. */
function folderFor({ XDG_CACHE_HOME, LOCALAPPDATA, HOME }: NodeJS.ProcessEnv): string | undefined {
  switch (process.platform) {
    case 'win32':
      return LOCALAPPDATA && join(LOCALAPPDATA, 'passagework', 'Cache');
    case 'darwin':
      return HOME && join(HOME, 'Library', 'Caches', 'passagework');
    default:
      return XDG_CACHE_HOME ? join(XDG_CACHE_HOME, 'passagework') : HOME && join(HOME, '.cache', 'passagework');
  }
}

/** Where a system tells whose a file is: this user's, and nobody else may write to it. */
function isMine(path: string): boolean {
  const { uid, mode } = statSync(path);
  return process.getuid === undefined || (uid === process.getuid() && (mode & 0o022) === 0);
}
