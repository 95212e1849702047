import * as vscode from 'vscode';
import { fromBase64 } from '../../server/protocol/base64';
import { saveAs } from '../commands/save-as';
import type { PanelMessage } from '../webview/messages';

/** Saves a view that the panel has drawn, beside its passage unless the user says otherwise. */
export async function saveView(
  { name, format, data }: Extract<PanelMessage, { type: 'export' }>,
  passage: vscode.Uri | undefined,
): Promise<void> {
  const bytes = format === 'svg' ? new TextEncoder().encode(data) : fromBase64(data);
  await saveAs(name, bytes, format === 'svg' ? vscode.l10n.t('SVG picture') : vscode.l10n.t('PNG picture'), passage);
}
