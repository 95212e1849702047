/// <reference lib="dom" />
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { type Extension, startExtension } from './extension';
import { clientOptions } from './language-client';

let extension: Extension | undefined;
let address: string | undefined;

/** VS Code in the browser: the server is a web worker. */
export async function activate(context: vscode.ExtensionContext): Promise<void> {
  extension = await startExtension(
    context,
    (output) => new LanguageClient('passagework', 'Passagework', () => startServer(context), clientOptions(context, output)),
  );
}

export async function deactivate(): Promise<void> {
  await extension?.stop();
  if (address) URL.revokeObjectURL(address);
}

/**
 * The worker starts from a copy in memory: a browser starts none from another origin, and an extension kept on a
 * remote machine has no address that a worker could load.
 */
async function startServer(context: vscode.ExtensionContext): Promise<Worker> {
  const file = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server', 'browser.js');
  const source = await vscode.workspace.fs.readFile(file);
  if (address) URL.revokeObjectURL(address);
  address = URL.createObjectURL(new Blob([source as Uint8Array<ArrayBuffer>], { type: 'text/javascript' }));
  return new Worker(address);
}
