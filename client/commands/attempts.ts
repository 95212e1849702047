import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  ATTEMPTS_REQUEST,
  type AttemptsParams,
  type AttemptsReply,
  COMMANDS,
  LANGUAGE,
  type LogParams,
  PLAYER_LANGUAGE,
} from '../../server/protocol/messages';
import { ask } from '../ask';
import { fileName } from '../file-name';
import { playerUri } from '../players';
import { reasonOf } from '../reason';
import { editPlayer, type PlayerEdit } from './edit-player';

/** An unsaved file is called by its first line. */
const starter = () => `name: ${vscode.l10n.t('New player')}
// ${vscode.l10n.t('Reaches, instrument, and how attempts went: what is known of one player.')}
instrument: violin
hand: medium

// ${vscode.l10n.t('Try slowly, the hand at rest before it: how many came out clean, of how many.')}
// III 1/4: 4 of 10
`;

/** Counting attempts in the file of the player, from a passage or from the file itself. */
export function registerAttempts(context: vscode.ExtensionContext, client: BaseLanguageClient): void {
  context.subscriptions.push(
    vscode.commands.registerCommand(COMMANDS.logAttempt, (params: LogParams) => log(client, params)),
    vscode.commands.registerCommand('passagework.logClean', () => logHere(client, true)),
    vscode.commands.registerCommand('passagework.logNotClean', () => logHere(client, false)),
    vscode.commands.registerCommand('passagework.newPlayer', async () => {
      const document = await vscode.workspace.openTextDocument({ language: PLAYER_LANGUAGE, content: starter() });
      await vscode.window.showTextDocument(document);
    }),
  );
}

async function log(client: BaseLanguageClient, { uri, file, attempt, clean }: LogParams): Promise<void> {
  const target = file === undefined ? vscode.Uri.parse(uri) : playerUri({ uri, file });
  if (!target) return;
  const name = fileName(target);
  try {
    const made = await editPlayer(client, target, { kind: 'attempt', attempt, clean });
    if (made) await tell(made, name);
    else
      void vscode.window.showWarningMessage(
        vscode.l10n.t('{file} could not be changed, so the attempt is not counted. Is it read-only?', { file: name }),
      );
  } catch (error) {
    void vscode.window.showErrorMessage(
      vscode.l10n.t("The attempt is not counted, since {file} can't be opened: {reason}", {
        file: name,
        reason: reasonOf(error),
      }),
    );
  }
}

/** Says what now stands in the file, and takes it back with one click. */
async function tell({ line, undo }: PlayerEdit, name: string): Promise<void> {
  const press = vscode.l10n.t('Undo');
  const answer = await vscode.window.showInformationMessage(
    vscode.l10n.t('Written in {file}: {line}', { file: name, line }),
    press,
  );
  if (answer === press && !(await undo()))
    void vscode.window.showWarningMessage(
      vscode.l10n.t('{file} has changed at that line since, so nothing was undone. Correct it there.', { file: name }),
    );
}

const UNANSWERED = { what: vscode.l10n.t('The attempt is not counted'), again: vscode.l10n.t('count it again') };

/** At the cursor: the note of a passage as it is fingered, or the line of a player file. */
async function logHere(client: BaseLanguageClient, clean: boolean): Promise<void> {
  const editor = vscode.window.activeTextEditor;
  const language = editor?.document.languageId;
  if (editor && (language === LANGUAGE || language === PLAYER_LANGUAGE)) {
    const uri = editor.document.uri.toString();
    const { line, character } = editor.selection.active;
    const params: AttemptsParams = { uri, position: { line, character } };
    const reply = await ask<AttemptsReply>(client, ATTEMPTS_REQUEST, params, UNANSWERED);
    if (reply === undefined) return;
    const attempt = reply && (await oneOf(reply.attempts));
    if (reply && attempt) return log(client, { uri, ...(reply.file !== undefined && { file: reply.file }), attempt, clean });
    if (reply && reply.attempts.length > 0) return;
  }
  void vscode.window.showInformationMessage(
    vscode.l10n.t(
      'Put the cursor on a note of a passage with a “player:” line, or on a line of attempts in a player file: that is what gets counted. An open string needs no attempts.',
    ),
  );
}

/** The notes of a double stop are tried one by one. */
async function oneOf(attempts: readonly string[]): Promise<string | undefined> {
  return attempts.length < 2
    ? attempts[0]
    : vscode.window.showQuickPick(attempts, { title: vscode.l10n.t('Which of the two was tried?') });
}
