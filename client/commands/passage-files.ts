import * as vscode from 'vscode';
import { COMMANDS, LANGUAGE } from '../../server/protocol/messages';
import { textColumn } from './passage-editor';

/** An unsaved file is called by its first line. */
const starter = () => `passage: ${vscode.l10n.t('First light')}
instrument: violin
hand: medium
tempo: 1/4 = 72
meter: 4/4

// ${vscode.l10n.t('A circle asks for a harmonic: o after a pitch.')}
1/4 D5 A5 D6o F#6o | 1/2 A6o D6o ||
`;

/** New passage files, and the tour for whoever opens one for the first time. */
export function registerPassageFiles(context: vscode.ExtensionContext): void {
  context.subscriptions.push(
    vscode.commands.registerCommand('passagework.newPassage', async () => {
      const document = await vscode.workspace.openTextDocument({ language: LANGUAGE, content: starter() });
      await vscode.window.showTextDocument(document, textColumn());
    }),
    vscode.commands.registerCommand('passagework.openExample', async () => {
      const file = vscode.Uri.joinPath(context.extensionUri, 'client', 'examples', 'lighthouse-study.passage');
      const content = new TextDecoder().decode(await vscode.workspace.fs.readFile(file));
      // A copy without a file: it can be changed and kept anywhere, and the example stays as it was.
      const document = await vscode.workspace.openTextDocument({ language: LANGUAGE, content });
      await vscode.window.showTextDocument(document, textColumn());
      await vscode.commands.executeCommand(COMMANDS.preview);
    }),
    vscode.commands.registerCommand('passagework.tour', () =>
      vscode.commands.executeCommand('workbench.action.openWalkthrough', `${context.extension.id}#firstPassage`),
    ),
  );
}
