import { type ChildProcess, spawn } from 'node:child_process';
import { closeSync, mkdirSync, openSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join, resolve } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { installExtension, installHost, NO_GALLERY } from './install';

export interface ServerOptions {
  /** Names the server's own folder under `.cache/workbench`. */
  readonly name: string;
  /** Where the extension runs: in the server's Node, or in a web worker of the browser as in a VS Code without a machine. */
  readonly extensionHost: 'node' | 'web';
  readonly settings?: Readonly<Record<string, unknown>>;
}

export interface RunningServer {
  readonly origin: string;
  /** Of its main process; everything that it starts is below. */
  readonly pid: number;
  /** What the server wrote so far. */
  log(): string;
  stop(): Promise<void>;
}

const QUIET: Readonly<Record<string, unknown>> = {
  'security.workspace.trust.enabled': false,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'chat.disableAIFeatures': true,
  'telemetry.telemetryLevel': 'off',
  'extensions.ignoreRecommendations': true,
  'extensions.autoCheckUpdates': false,
  'update.mode': 'none',
  'git.enabled': false,
  'files.autoSave': 'afterDelay',
  'files.autoSaveDelay': 200,
};

/** Starts a real VS Code in the browser on this machine, with the packaged extension installed, and waits until it answers. */
export async function startServer({ name, extensionHost, settings = {} }: ServerOptions): Promise<RunningServer> {
  const host = installHost();
  const home = resolve('.cache/workbench', name);
  rmSync(home, { recursive: true, force: true });
  const userFolder = join(home, 'user/User');
  mkdirSync(userFolder, { recursive: true });
  const kind = extensionHost === 'web' ? { 'remote.extensionKind': { 'passagework.passagework': ['web'] } } : {};
  writeFileSync(join(userFolder, 'settings.json'), JSON.stringify({ ...QUIET, ...kind, ...settings }, null, 2));
  const folders = [
    '--server-data-dir',
    join(home, 'server'),
    '--user-data-dir',
    join(home, 'user'),
    '--extensions-dir',
    installExtension(host),
  ];
  const env = { ...process.env, EXTENSIONS_GALLERY: NO_GALLERY };
  const port = await freePort();
  const logFile = join(home, 'log.txt');
  const log = openSync(logFile, 'w');
  const address = ['--host', '127.0.0.1', '--port', String(port), '--without-connection-token', '--reconnection-grace-time', '5'];
  const server = spawn(host.node, [host.main, '--accept-server-license-terms', ...folders, ...address], {
    env,
    // A process group of its own, so that its extension hosts end with it.
    detached: true,
    stdio: ['ignore', log, log],
  });
  closeSync(log);
  const { pid } = server;
  if (!pid) throw new Error(`No process could be started of ${host.node}.`);
  // However this program ends, the server must not outlive it.
  process.once('exit', () => signal(pid, 'SIGKILL'));
  const running: RunningServer = {
    origin: `http://127.0.0.1:${port}`,
    pid,
    log: () => readFileSync(logFile, 'utf8'),
    stop: () => endGroup(server),
  };
  try {
    await answers(`${running.origin}/version`, server);
  } catch (error) {
    await running.stop();
    throw new Error(`${error}\n${running.log()}`);
  }
  return running;
}

async function answers(address: string, server: ChildProcess): Promise<void> {
  for (let tries = 0; tries < 240; tries++) {
    if (server.exitCode !== null) throw new Error(`The VS Code server ended at once, with code ${server.exitCode}.`);
    const response = await fetch(address).catch(() => undefined);
    if (response?.ok) return;
    await wait(250);
  }
  throw new Error('The VS Code server did not answer within a minute.');
}

function freePort(): Promise<number> {
  return new Promise((give, fail) => {
    const probe = createServer();
    probe.once('error', fail);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => (address && typeof address === 'object' ? give(address.port) : fail(new Error('no free port'))));
    });
  });
}

async function endGroup(server: ChildProcess): Promise<void> {
  const { pid } = server;
  if (!pid) return;
  const ended = server.exitCode !== null || server.signalCode !== null;
  const over = ended ? Promise.resolve() : new Promise((done) => server.once('exit', done));
  signal(pid, 'SIGTERM');
  await Promise.race([over, wait(5000)]);
  signal(pid, 'SIGKILL');
}

function signal(group: number, name: NodeJS.Signals): void {
  try {
    process.kill(-group, name);
  } catch {
    // The whole group has ended already.
  }
}
