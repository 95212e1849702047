import * as vscode from 'vscode';
import { LANGUAGE } from '../../server/protocol/messages';

/** The passage file being edited; while the preview has the focus, one that is in view. */
export function passageEditor(): vscode.TextEditor | undefined {
  const { activeTextEditor, visibleTextEditors } = vscode.window;
  const editor = activeTextEditor ?? visibleTextEditors.find(isPassage);
  return editor && isPassage(editor) ? editor : undefined;
}

/** Where texts are: a new one opened there doesn't cover the preview, even where that has the keyboard. */
export function textColumn(): vscode.ViewColumn {
  const { activeTextEditor, visibleTextEditors } = vscode.window;
  return (activeTextEditor ?? visibleTextEditors[0])?.viewColumn ?? vscode.ViewColumn.One;
}

function isPassage({ document }: vscode.TextEditor): boolean {
  return document.languageId === LANGUAGE;
}
