import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';

const BUILT = resolve('dist/command.cjs');

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the command as built, as a user would. */
export function passagework(
  words: readonly string[],
  { input = '', cwd = process.cwd(), env = {} as NodeJS.ProcessEnv } = {},
): Ran {
  const { status, stdout, stderr } = spawnSync(process.execPath, [built(), ...words], {
    input,
    cwd,
    encoding: 'utf8',
    env: { ...environment(), ...env },
    maxBuffer: 2 ** 26,
  });
  return { code: status, out: stdout, err: stderr };
}

/** Runs the command and measures what it takes of the machine: seconds of processor, and MB of memory at most. */
export function measured(words: readonly string[], cwd: string): Ran & { readonly seconds: number; readonly megabytes: number } {
  const told = join(cwd, 'usage.json');
  const program = `process.on('exit', () => require('node:fs').writeFileSync(${JSON.stringify(told)}, JSON.stringify(process.resourceUsage())));
process.argv.splice(1, 0, ${JSON.stringify(built())}); require(${JSON.stringify(built())});`;
  const { status, stdout, stderr } = spawnSync(process.execPath, ['-e', program, '--', ...words], {
    cwd,
    encoding: 'utf8',
    env: environment(),
  });
  const { userCPUTime, systemCPUTime, maxRSS } = JSON.parse(readFileSync(told, 'utf8')) as NodeJS.ResourceUsage;
  return { code: status, out: stdout, err: stderr, seconds: (userCPUTime + systemCPUTime) / 1e6, megabytes: maxRSS / 1000 };
}

/** Starts the command and leaves it running. */
export function started(words: readonly string[], cwd: string): ChildProcess {
  return spawn(process.execPath, [built(), ...words], { cwd, env: environment() });
}

/** A folder of its own with the given files; `[Symbol.dispose]` takes it away. */
export function folder(files: Readonly<Record<string, string>>): { readonly path: string; [Symbol.dispose](): void } {
  const path = mkdtempSync(join(tmpdir(), 'passagework-'));
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(path, name)), { recursive: true });
    writeFileSync(join(path, name), text);
  }
  return { path, [Symbol.dispose]: () => rmSync(path, { recursive: true, force: true }) };
}

/** A passage that no hand can play: a fifth below the violin's lowest string. */
export const UNPLAYABLE = '1/4 C3 D5\n';
export const CLEAN = '1/4 D5 E5 F#5 G5\n';

function built(): string {
  if (!existsSync(BUILT)) throw new Error('dist/command.cjs is not built: run npm run build (npm test does).');
  return BUILT;
}

/** Without what a runner sets to colour or shorten output. */
function environment(): NodeJS.ProcessEnv {
  const { FORCE_COLOR: _, NO_COLOR: __, ...rest } = process.env;
  return { ...rest, CI: 'true' };
}
