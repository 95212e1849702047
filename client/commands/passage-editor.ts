import * as vscode from 'vscode';
import { LANGUAGE } from '../../server/protocol/messages';

/** The passage file being edited; while the preview has the focus, one that is in view. */
export function passageEditor(): vscode.TextEditor | undefined {
  const { activeTextEditor, visibleTextEditors } = vscode.window;
  const editor = activeTextEditor ?? visibleTextEditors.find(isPassage);
  return editor && isPassage(editor) ? editor : undefined;
}

function isPassage({ document }: vscode.TextEditor): boolean {
  return document.languageId === LANGUAGE;
}
