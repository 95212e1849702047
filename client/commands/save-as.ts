import * as vscode from 'vscode';
import { reasonOf } from '../reason';

/** Asks where to save `bytes`, suggests `name` beside `neighbour`, saves, and offers to open the file. */
export async function saveAs(name: string, bytes: Uint8Array, kind: string, neighbour: vscode.Uri | undefined): Promise<void> {
  const extension = name.slice(name.lastIndexOf('.') + 1);
  const folder = neighbour && neighbour.scheme !== 'untitled' ? vscode.Uri.joinPath(neighbour, '..') : undefined;
  const start = folder ?? vscode.workspace.workspaceFolders?.[0]?.uri;
  const target = await vscode.window.showSaveDialog({
    ...(start && { defaultUri: vscode.Uri.joinPath(start, name) }),
    filters: { [kind]: [extension] },
  });
  if (!target) return;
  try {
    await vscode.workspace.fs.writeFile(target, bytes);
  } catch (error) {
    void vscode.window.showErrorMessage(
      vscode.l10n.t('{file} could not be written ({reason}). Choose another place.', {
        file: target.path,
        reason: reasonOf(error),
      }),
    );
    return;
  }
  const answer = await vscode.window.showInformationMessage(
    vscode.l10n.t('Saved {file}.', { file: vscode.workspace.asRelativePath(target) }),
    vscode.l10n.t('Open'),
  );
  if (answer) await vscode.commands.executeCommand('vscode.open', target);
}
