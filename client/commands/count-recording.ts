import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { fileName } from '../file-name';
import { playerUri } from '../players';
import { reasonOf } from '../reason';
import type { HeardMessage } from '../webview/messages';
import { editPlayer } from './edit-player';

/** A recording that was listened to, as the preview shows it. */
export interface HeardRecording {
  readonly message: HeardMessage;
  readonly fingerprint: string;
}

/** Counts the attempts of a recording in the player file, or takes them back; the lines that change are shown first. */
export async function countRecording(
  client: BaseLanguageClient,
  passage: vscode.Uri,
  { message: { player, counts, recording }, fingerprint }: HeardRecording,
  back: boolean,
): Promise<void> {
  const target = player === undefined ? undefined : playerUri({ uri: passage.toString(), file: player });
  if (!target) return;
  const name = fileName(target);
  const names = { recording, file: name };
  const press = back ? vscode.l10n.t('Take Back') : vscode.l10n.t('Count');
  const title = back
    ? vscode.l10n.t('Take {recording} out of {file}?', names)
    : vscode.l10n.t('Count {recording} in {file}?', names);
  let answer: boolean | undefined;
  const agreed = async (lines: readonly string[]) => {
    answer = (await vscode.window.showInformationMessage(title, { modal: true, detail: lines.join('\n') }, press)) === press;
    return answer;
  };
  try {
    const made = await editPlayer(client, target, { kind: 'recording', fingerprint, counts, back }, agreed);
    const done = () =>
      back ? vscode.l10n.t('{recording}: taken out of {file}', names) : vscode.l10n.t('{recording}: counted in {file}', names);
    if (made) vscode.window.setStatusBarMessage(done(), 5000);
    else if (answer) void vscode.window.showWarningMessage(vscode.l10n.t('{file} could not be changed. Is it read-only?', names));
    else if (answer === undefined)
      void vscode.window.showInformationMessage(
        back
          ? vscode.l10n.t('{file} does not count this recording, so it stays as it is.', names)
          : vscode.l10n.t('{file} counts this recording already, so it stays as it is.', names),
      );
  } catch (error) {
    void vscode.window.showErrorMessage(
      vscode.l10n.t("The attempts are not counted, since {file} can't be opened: {reason}", {
        ...names,
        reason: reasonOf(error),
      }),
    );
  }
}
