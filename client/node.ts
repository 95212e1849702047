import { fork } from 'node:child_process';
import { open } from 'node:fs/promises';
import * as vscode from 'vscode';
import {
  IPCMessageReader,
  IPCMessageWriter,
  LanguageClient,
  type ServerOptions,
  TransportKind,
} from 'vscode-languageclient/node';
import type { RunningConverter } from './converter';
import { type Extension, startExtension } from './extension';
import { clientOptions } from './language-client';
import { BLOCK, openWhole, type Recording } from './recording';

let extension: Extension | undefined;

/** Desktop VS Code: the server is a Node process of its own. */
export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const module = program(context, 'node.js');
  const run = { module, transport: TransportKind.ipc };
  const server: ServerOptions = { run, debug: { ...run, options: { execArgv: ['--nolazy', '--inspect=6019'] } } };
  extension = await startExtension(context, {
    createClient: (...parts) => new LanguageClient('passagework', 'Passagework', server, clientOptions(context, ...parts)),
    writesPdf: true,
    startConverter: async () => startConverter(program(context, 'node-conversion.js')),
    openRecording: (uri) => (uri.scheme === 'file' ? openFile(uri.fsPath) : openWhole(uri)),
  });
}

export function deactivate(): Promise<void> | undefined {
  return extension?.stop();
}

function startConverter(module: string): RunningConverter {
  // Started from Electron, a program must be told that it is to be plain Node.
  const child = fork(module, [], { env: { ...process.env, ELECTRON_RUN_AS_NODE: '1' }, stdio: 'ignore' });
  return {
    transports: { reader: new IPCMessageReader(child), writer: new IPCMessageWriter(child) },
    end: () => child.kill(),
  };
}

function program(context: vscode.ExtensionContext, name: string): string {
  return vscode.Uri.joinPath(context.extensionUri, 'dist', 'server', name).fsPath;
}

/** A file on this machine, of which only a block at a time is read. */
async function openFile(path: string): Promise<Recording> {
  const file = await open(path);
  const { size } = await file.stat();
  return {
    size,
    async next() {
      const { buffer, bytesRead } = await file.read({ buffer: new Uint8Array(BLOCK) });
      return buffer.subarray(0, bytesRead);
    },
    close: () => file.close(),
  };
}
