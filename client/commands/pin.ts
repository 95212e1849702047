import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { PIN_REQUEST, type PinParams, type PinReply } from '../../server/protocol/messages';
import { ask, changedSince } from '../ask';

const UNANSWERED = { what: vscode.l10n.t('The fingering is not written'), again: vscode.l10n.t('choose the fingering again') };

/** Writes a chosen fingering into the text, as one step to undo. */
export async function pin(client: BaseLanguageClient, params: PinParams): Promise<void> {
  const reply = await ask<PinReply | null>(client, PIN_REQUEST, params, UNANSWERED);
  if (reply === undefined) return;
  const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(params.uri));
  if (!reply || document.version !== params.version) return changedSince(UNANSWERED.again);
  const edit = new vscode.WorkspaceEdit();
  for (const { start, end, text } of reply.edits)
    edit.replace(document.uri, new vscode.Range(start.line, start.character, end.line, end.character), text);
  await vscode.workspace.applyEdit(edit);
}
