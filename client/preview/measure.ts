import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  LANGUAGE,
  MEASURE_REQUEST,
  type MeasureParams,
  type MeasureReply,
  PLAYER_LANGUAGE,
} from '../../server/protocol/messages';
import { editPlayer } from '../commands/edit-player';
import { fileName } from '../file-name';
import type { PlayerFiles } from '../players';
import { reasonOf } from '../reason';
import type { MeasureHostMessage, MeasurePageMessage } from '../webview/measure/messages';
import { newNonce, page } from './page';

export interface MeasureParts {
  readonly client: BaseLanguageClient;
  readonly players: PlayerFiles;
  readonly output: vscode.LogOutputChannel;
}

/** The page that measures a hand step by step and writes it into a player file; one for each file. */
export function registerMeasure(context: vscode.ExtensionContext, parts: MeasureParts): void {
  const opened = new Map<string, vscode.WebviewPanel>();
  context.subscriptions.push(
    vscode.commands.registerCommand('passagework.measureReach', async () => {
      const file = await playerFile(parts.players, opened);
      if (!file) return;
      const name = file.toString();
      const before = opened.get(name);
      if (before) return before.reveal();
      const panel = open(context, parts, file);
      opened.set(name, panel);
      panel.onDidDispose(() => opened.delete(name));
    }),
  );
}

/** The player file being edited, the one that the passage being edited names, the one whose hand is being measured, or a new one. */
async function playerFile(
  players: PlayerFiles,
  opened: ReadonlyMap<string, vscode.WebviewPanel>,
): Promise<vscode.Uri | undefined> {
  const { activeTextEditor, visibleTextEditors } = vscode.window;
  // While a preview or the tour has the focus, no editor is active.
  const document = [activeTextEditor, ...visibleTextEditors]
    .map((editor) => editor?.document)
    .find((each) => each?.languageId === PLAYER_LANGUAGE || each?.languageId === LANGUAGE);
  if (document?.languageId === PLAYER_LANGUAGE) return document.uri;
  const named = document ? players.namedBy(document.uri.toString()) : [];
  if (named.length > 1) {
    const items = named.map((uri) => ({ label: fileName(uri), uri }));
    return (await vscode.window.showQuickPick(items, { title: vscode.l10n.t('Whose hand is measured?') }))?.uri;
  }
  if (named[0]) return named[0];
  const [measured] = document ? [] : opened.keys();
  if (measured !== undefined) return vscode.Uri.parse(measured);
  await vscode.commands.executeCommand('passagework.newPlayer');
  return vscode.window.activeTextEditor?.document.uri;
}

function open(context: vscode.ExtensionContext, { client, output }: MeasureParts, file: vscode.Uri): vscode.WebviewPanel {
  const dist = vscode.Uri.joinPath(context.extensionUri, 'dist');
  const panel = vscode.window.createWebviewPanel(
    'passagework.measure',
    vscode.l10n.t('Measure My Reach'),
    // Beside the text; where a preview or the tour has the focus, in its place and not beside that.
    vscode.window.activeTextEditor ? vscode.ViewColumn.Beside : vscode.ViewColumn.Active,
    {
      enableScripts: true,
      localResourceRoots: [dist],
    },
  );
  panel.iconPath = vscode.Uri.joinPath(context.extensionUri, 'client', 'media', 'icon.svg');
  const post = (message: MeasureHostMessage) => void panel.webview.postMessage(message);
  panel.webview.onDidReceiveMessage(async (message: MeasurePageMessage) => {
    try {
      await answer(message);
    } catch (error) {
      const reason = reasonOf(error);
      output.error(`Measuring: ${reason}`);
      post({ type: 'failed', message: vscode.l10n.t('{file} can’t be opened: {reason}', { file: fileName(file), reason }) });
    }
  });

  async function answer(message: MeasurePageMessage): Promise<void> {
    switch (message.type) {
      case 'ready': {
        const params: MeasureParams = { text: (await vscode.workspace.openTextDocument(file)).getText() };
        const player: MeasureReply = await client.sendRequest(MEASURE_REQUEST, params);
        return post({ type: 'player', player, file: fileName(file) });
      }
      case 'write': {
        const written = await editPlayer(client, file, { kind: 'value', key: 'hand', value: message.hand });
        return post(
          written
            ? { type: 'written', file: fileName(file) }
            : {
                type: 'failed',
                message: vscode.l10n.t('{file} could not be changed. Is it read-only?', { file: fileName(file) }),
              },
        );
      }
      case 'broke':
        return output.error(`Measuring: ${message.message}`);
    }
  }

  panel.webview.html = page({
    nonce: newNonce(),
    source: panel.webview.cspSource,
    script: panel.webview.asWebviewUri(vscode.Uri.joinPath(dist, 'measure.js')).toString(),
    language: vscode.env.language,
    words: vscode.l10n.bundle,
  });
  return panel;
}
