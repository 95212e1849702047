import * as vscode from 'vscode';
import { LanguageClient, type ServerOptions, TransportKind } from 'vscode-languageclient/node';
import { type Extension, startExtension } from './extension';
import { clientOptions } from './language-client';

let extension: Extension | undefined;

/** Desktop VS Code: the server is a Node process of its own. */
export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const module = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server', 'node.js').fsPath;
  const run = { module, transport: TransportKind.ipc };
  const server: ServerOptions = { run, debug: { ...run, options: { execArgv: ['--nolazy', '--inspect=6019'] } } };
  extension = await startExtension(
    context,
    (output) => new LanguageClient('passagework', 'Passagework', server, clientOptions(context, output)),
  );
}

export function deactivate(): Promise<void> | undefined {
  return extension?.stop();
}
