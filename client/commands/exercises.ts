import * as vscode from 'vscode';
import { EXERCISES_REQUEST, type ExercisesParams, type ExercisesReply, LANGUAGE } from '../../server/protocol/messages';
import type { Converter } from '../converter';
import { fileName } from '../file-name';
import { asked } from './asked';
import { passageEditor } from './passage-editor';

/** Practice material from the passage at the cursor, in a document of its own. */
export function registerExercises(context: vscode.ExtensionContext, converter: Converter): void {
  context.subscriptions.push(vscode.commands.registerCommand('passagework.exercises', () => writeExercises(converter)));
}

async function writeExercises(converter: Converter): Promise<void> {
  const editor = passageEditor();
  if (!editor) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t('Open the .passage file first: exercises are made from the passage that the cursor is in.'),
    );
    return;
  }
  const params = paramsFor(editor);
  const ask = (kinds?: readonly string[]) =>
    asked<ExercisesParams, ExercisesReply>(converter, vscode.l10n.t('Writing exercises…'), EXERCISES_REQUEST, {
      ...params,
      ...(kinds && { kinds }),
    });
  const all = await ask();
  if (!all) return;
  const chosen = await chooseKinds(all.kinds);
  if (!chosen?.length) return;
  const reply = chosen.length === all.kinds.length ? all : await ask(chosen);
  if (!reply) return;
  const document = await vscode.workspace.openTextDocument({ language: LANGUAGE, content: reply.text });
  // Over the passage, not beside it: there the preview stands, and follows.
  await vscode.window.showTextDocument(document, editor.viewColumn);
}

function paramsFor({ document, selection }: vscode.TextEditor): ExercisesParams {
  const settings = vscode.workspace.getConfiguration('passagework', document.uri);
  return {
    uri: document.uri.toString(),
    text: document.getText(),
    ...(!document.isUntitled && { file: fileName(document.uri) }),
    line: selection.active.line,
    instrument: settings.get('instrument', ''),
    hand: settings.get('hand', ''),
    safeChance: settings.get('safeChance', 0.8),
  };
}

type Kinds = Exclude<ExercisesReply, { readonly problem: string }>['kinds'];

/** All kinds that the passage has material for are ticked; the teacher takes away what is not wanted. Undefined when dismissed. */
async function chooseKinds(kinds: Kinds): Promise<readonly string[] | undefined> {
  const items = kinds.map(({ name, label, meaning }) => ({ label, detail: meaning, name, picked: true }));
  const chosen = await vscode.window.showQuickPick(items, {
    title: vscode.l10n.t('Exercises for this passage'),
    placeHolder: vscode.l10n.t('Which kinds? Press Enter for all of them'),
    canPickMany: true,
  });
  return chosen?.map(({ name }) => name);
}
