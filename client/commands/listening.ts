import * as vscode from 'vscode';
import { toBase64 } from '../../server/protocol/base64';
import {
  LISTEN_REQUEST,
  type ListenParams,
  type ListenReply,
  READ_RECORDING_REQUEST,
  type ReadRecordingReply,
} from '../../server/protocol/messages';
import type { Converter } from '../converter';
import { fileName } from '../file-name';
import type { Preview } from '../preview/preview';
import { reasonOf } from '../reason';
import type { Recording } from '../recording';
import { passageEditor } from './passage-editor';

export interface ListeningParts {
  readonly converter: Converter;
  openRecording(uri: vscode.Uri): Promise<Recording>;
  openPreview(uri: vscode.Uri): Preview;
}

/** Listens to a recording of the passage at the cursor and shows in the preview what became of its notes. */
export function registerListening(context: vscode.ExtensionContext, parts: ListeningParts): void {
  context.subscriptions.push(
    vscode.commands.registerCommand('passagework.listen', (recording?: vscode.Uri) => listen(parts, recording)),
  );
}

async function listen({ converter, openRecording, openPreview }: ListeningParts, given: vscode.Uri | undefined): Promise<void> {
  const editor = passageEditor();
  if (!editor) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t('Open the .passage file first, and put the cursor in the passage that was recorded.'),
    );
    return;
  }
  const { document } = editor;
  const params = paramsFor(editor);
  const { version } = document;
  const file = given ?? (await chooseRecording(document.uri));
  if (!file) return;
  const name = fileName(file);
  try {
    const recording = await openRecording(file);
    const reply = await heard(converter, params, recording, name).finally(() => recording.close());
    if (!reply) return;
    if ('problem' in reply) {
      void vscode.window.showWarningMessage(`${name}: ${reply.problem}`);
      return;
    }
    const { passage, heard: found, counts, fingerprint, player } = reply;
    const message = { type: 'heard', version, passage, recording: name, heard: found, counts } as const;
    openPreview(document.uri).hear({ message: player === undefined ? message : { ...message, player }, fingerprint });
  } catch (error) {
    void vscode.window.showErrorMessage(
      vscode.l10n.t('{file} could not be read: {reason}.', { file: name, reason: reasonOf(error) }),
    );
  }
}

async function chooseRecording(passage: vscode.Uri): Promise<vscode.Uri | undefined> {
  const folder = passage.scheme === 'untitled' ? undefined : vscode.Uri.joinPath(passage, '..');
  const chosen = await vscode.window.showOpenDialog({
    title: vscode.l10n.t('Listen to a recording of this passage'),
    openLabel: vscode.l10n.t('Listen'),
    filters: { [vscode.l10n.t('WAV or FLAC')]: ['wav', 'wave', 'flac'] },
    ...(folder && { defaultUri: folder }),
  });
  return chosen?.[0];
}

/** Undefined where the user has had enough of it. */
async function heard(
  converter: Converter,
  params: ListenParams,
  recording: Recording,
  name: string,
): Promise<ListenReply | undefined> {
  const options = {
    location: vscode.ProgressLocation.Notification,
    title: vscode.l10n.t('Listening to {file}…', { file: name }),
    cancellable: true,
  };
  return vscode.window.withProgress(options, async (progress, cancel) => {
    const next = async (): Promise<ReadRecordingReply> => {
      const block = await recording.next();
      progress.report({ increment: (100 * block.length) / Math.max(1, recording.size) });
      return { base64: toBase64(block) };
    };
    const asked = converter.request<ListenParams, ListenReply>(
      LISTEN_REQUEST,
      params,
      { [READ_RECORDING_REQUEST]: next },
      (end) => cancel.onCancellationRequested(end),
    );
    try {
      return await asked;
    } catch (error) {
      if (cancel.isCancellationRequested) return undefined;
      throw error;
    }
  });
}

function paramsFor({ document, selection }: vscode.TextEditor): ListenParams {
  const settings = vscode.workspace.getConfiguration('passagework', document.uri);
  return {
    uri: document.uri.toString(),
    text: document.getText(),
    line: selection.active.line,
    instrument: settings.get('instrument', ''),
    hand: settings.get('hand', ''),
  };
}
