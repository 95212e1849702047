import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { COMMANDS, type PinParams } from '../../server/protocol/messages';
import type { Place } from '../../server/protocol/place';
import { pin } from './pin';

/** Commands behind the links of hovers and lenses. */
export function registerEditing(context: vscode.ExtensionContext, client: BaseLanguageClient): void {
  context.subscriptions.push(
    vscode.commands.registerCommand(COMMANDS.pin, (params: PinParams) => pin(client, params)),
    vscode.commands.registerCommand(COMMANDS.reveal, reveal),
  );
}

async function reveal(uri: string, start: Place, end: Place): Promise<void> {
  const selection = new vscode.Range(start.line, start.character, end.line, end.character);
  await vscode.window.showTextDocument(vscode.Uri.parse(uri), { selection });
}
