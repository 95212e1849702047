import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { EDIT_PLAYER_REQUEST, type EditPlayerParams, type EditPlayerReply } from '../../server/protocol/messages';

/** Edits wait for each other: each is worked out on the text that the one before left. */
let before: Promise<unknown> = Promise.resolve();

/**
 * Changes a player file as one step to undo, and saves it where it was saved before: it need not be on the screen. False where
 * the change can't be made.
 */
export function editPlayer(client: BaseLanguageClient, uri: vscode.Uri, change: EditPlayerParams['change']): Promise<boolean> {
  const edit = before.then(() => write(client, uri, change));
  before = edit.catch(() => undefined);
  return edit;
}

async function write(client: BaseLanguageClient, uri: vscode.Uri, change: EditPlayerParams['change']): Promise<boolean> {
  const document = await vscode.workspace.openTextDocument(uri);
  const saved = !document.isDirty && !document.isUntitled;
  const { version } = document;
  const params: EditPlayerParams = { text: document.getText(), change };
  const reply: EditPlayerReply = await client.sendRequest(EDIT_PLAYER_REQUEST, params);
  if (!reply) return false;
  // Typed into in the meantime: the places no longer hold.
  if (document.version !== version) return write(client, uri, change);
  const { start, end, text } = reply;
  const edit = new vscode.WorkspaceEdit();
  edit.replace(uri, new vscode.Range(start.line, start.character, end.line, end.character), text);
  if (!(await vscode.workspace.applyEdit(edit))) return false;
  if (saved) await document.save();
  return true;
}
