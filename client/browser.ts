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

let extension: Extension | undefined;
let server: Worker | undefined;

/** VS Code in the browser: the server is a web worker. */
export async function activate(context: vscode.ExtensionContext): Promise<void> {
  extension = await startExtension(
    context,
    (output) => new LanguageClient('passagework', 'Passagework', () => startServer(context), clientOptions(context, output)),
  );
}

export async function deactivate(): Promise<void> {
  await extension?.stop();
  server?.terminate();
}

/**
 * The worker starts from a copy in memory: a browser starts none from another origin, and an extension kept on a
 * remote machine has no address that a worker could load. Transports rather than the worker are handed over, since
 * VS Code's own `Worker` makes objects that the client doesn't take for workers.
 */
async function startServer(context: vscode.ExtensionContext): Promise<MessageTransports> {
  const file = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server', 'browser.js');
  const source = await vscode.workspace.fs.readFile(file);
  const address = URL.createObjectURL(new Blob([source as Uint8Array<ArrayBuffer>], { type: 'text/javascript' }));
  server?.terminate();
  server = new Worker(address);
  return { reader: new BrowserMessageReader(server), writer: new BrowserMessageWriter(server) };
}
