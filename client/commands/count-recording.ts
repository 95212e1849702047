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
  const press = back ? 'Take Back' : 'Count';
  const title = back ? `Take ${recording} out of ${name}?` : `Count ${recording} in ${name}?`;
  let answer: boolean | undefined;
  const agreed = async (lines: readonly string[]) => {
    answer = (await vscode.window.showInformationMessage(title, { modal: true, detail: lines.join('\n') }, press)) === press;
    return answer;
  };
  try {
    const made = await editPlayer(client, target, { kind: 'recording', fingerprint, counts, back }, agreed);
    if (made) vscode.window.setStatusBarMessage(`${recording}: ${back ? 'taken out of' : 'counted in'} ${name}`, 5000);
    else if (answer) void vscode.window.showWarningMessage(`${name} could not be changed. Is it read-only?`);
    else if (answer === undefined)
      void vscode.window.showInformationMessage(
        back
          ? `${name} does not count this recording, so it stays as it is.`
          : `${name} counts this recording already, so it stays as it is.`,
      );
  } catch (error) {
    void vscode.window.showErrorMessage(`The attempts are not counted, since ${name} can't be opened: ${reasonOf(error)}`);
  }
}
