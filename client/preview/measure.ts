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

/** The page that measures a hand step by step and writes it into a player file. */
export function registerMeasure(context: vscode.ExtensionContext, parts: MeasureParts): void {
  context.subscriptions.push(
    vscode.commands.registerCommand('passagework.measureReach', async () => {
      const file = await playerFile(parts.players);
      if (file) open(context, parts, file);
    }),
  );
}

/** The player file being edited, the one that the passage being edited names, or a new one. */
async function playerFile(players: PlayerFiles): Promise<vscode.Uri | undefined> {
  const document = vscode.window.activeTextEditor?.document;
  if (document?.languageId === PLAYER_LANGUAGE) return document.uri;
  const named = document?.languageId === LANGUAGE ? players.namedBy(document.uri.toString()) : [];
  if (named.length > 1) {
    const items = named.map((uri) => ({ label: fileName(uri), uri }));
    return (await vscode.window.showQuickPick(items, { title: vscode.l10n.t('Whose hand is measured?') }))?.uri;
  }
  if (named[0]) return named[0];
  await vscode.commands.executeCommand('passagework.newPlayer');
  return vscode.window.activeTextEditor?.document.uri;
}

function open(context: vscode.ExtensionContext, { client, output }: MeasureParts, file: vscode.Uri): void {
  const dist = vscode.Uri.joinPath(context.extensionUri, 'dist');
  const panel = vscode.window.createWebviewPanel(
    'passagework.measure',
    vscode.l10n.t('Measure My Reach'),
    vscode.ViewColumn.Beside,
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
  });
}
