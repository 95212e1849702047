import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { PIN_REQUEST, type PinParams, type PinReply } from '../../server/protocol/messages';

/** Writes a chosen fingering into the text, as one step to undo. */
export async function pin(client: BaseLanguageClient, params: PinParams): Promise<void> {
  const reply: PinReply | null = await client.sendRequest(PIN_REQUEST, params);
  const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(params.uri));
  if (!reply || document.version !== params.version) {
    vscode.window.setStatusBarMessage('The passage has changed since: choose the fingering again.', 5000);
    return;
  }
  const edit = new vscode.WorkspaceEdit();
  for (const { start, end, text } of reply.edits)
    edit.replace(document.uri, new vscode.Range(start.line, start.character, end.line, end.character), text);
  await vscode.workspace.applyEdit(edit);
}
