/// <reference lib="dom" />
import * as vscode from 'vscode';
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
  type MessageTransports,
} from 'vscode-languageclient/browser';
import { type Extension, startExtension } from './extension';
import { clientOptions } from './language-client';
import { openWhole } from './recording';

let extension: Extension | undefined;
let server: Worker | undefined;

/** VS Code in the browser: the server is a web worker. */
export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const startServer = async () => {
    server?.terminate();
    server = await startWorker(context, 'browser.js');
    return transports(server);
  };
  extension = await startExtension(context, {
    createClient: (...parts) => new LanguageClient('passagework', 'Passagework', startServer, clientOptions(context, ...parts)),
    writesPdf: false,
    startConverter: async () => {
      const worker = await startWorker(context, 'browser-conversion.js');
      return { transports: transports(worker), end: () => worker.terminate() };
    },
    openRecording: openWhole,
  });
}

export async function deactivate(): Promise<void> {
  await extension?.stop();
  server?.terminate();
}

/**
 * Starts a worker from a copy in memory: a browser starts none from another origin, and an extension kept on a remote
 * machine has no address that a worker could load.
 */
async function startWorker(context: vscode.ExtensionContext, name: string): Promise<Worker> {
  const source = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(context.extensionUri, 'dist', 'server', name));
  return new Worker(URL.createObjectURL(new Blob([source as Uint8Array<ArrayBuffer>], { type: 'text/javascript' })));
}

/** Handed over rather than the worker itself: VS Code's own `Worker` makes objects that the client doesn't take for workers. */
function transports(worker: Worker): MessageTransports {
  return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
}
