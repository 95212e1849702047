import * as vscode from 'vscode';
import { COMMANDS, LANGUAGE } from '../server/protocol/messages';
import type { Place } from '../server/protocol/place';
import type { ScenePassage } from '../server/protocol/scene';
import { nearestNote } from './preview/nearest-note';
import type { Scenes } from './scenes';

/** Hand and chance of the passage at the cursor, in the status bar. */
export function registerStatus(context: vscode.ExtensionContext, scenes: Scenes): void {
  const item = vscode.window.createStatusBarItem('passagework.status', vscode.StatusBarAlignment.Right, 100);
  item.name = vscode.l10n.t('Passagework: hand and chance');
  let uri: string | undefined;
  let watch: vscode.Disposable | undefined;
  let last: vscode.TextEditor | undefined;

  const update = () => {
    // With the keyboard in the preview no editor is active, yet the passage beside it is still the one at hand.
    const beside = last && vscode.window.visibleTextEditors.includes(last) ? last : undefined;
    const editor = vscode.window.activeTextEditor ?? beside;
    last = editor;
    const document = editor?.document.languageId === LANGUAGE ? editor.document : undefined;
    if (document?.uri.toString() !== uri) {
      watch?.dispose();
      uri = document?.uri.toString();
      watch = uri ? scenes.watch(uri) : undefined;
    }
    const passage = editor && document && passageAt(scenes, document.uri.toString(), editor.selection.active);
    if (!passage) return item.hide();
    const label = vscode.l10n.t('{hand} hand, {run}', { hand: passage.hand, run: passage.run });
    item.text = `$(music) ${label}`;
    item.accessibilityInformation = { label };
    item.tooltip = tooltip(passage);
    item.command = leadTo(passage, document.uri);
    item.show();
  };
  update();
  context.subscriptions.push(
    item,
    { dispose: () => watch?.dispose() },
    scenes.onDidChange((changed) => changed === uri && update()),
    scenes.onDidFail(update),
    vscode.window.onDidChangeActiveTextEditor(update),
    vscode.window.onDidChangeTextEditorSelection(update),
  );
}

function passageAt(scenes: Scenes, uri: string, cursor: Place): ScenePassage | undefined {
  const scene = scenes.get(uri);
  const at = scene && nearestNote(scene, cursor);
  return at && scene.passages[at.passage];
}

/** To the hardest spot; where there is none, to the preview. */
function leadTo({ events, hardest }: ScenePassage, uri: vscode.Uri): vscode.Command {
  const range = events[hardest]?.range;
  return range
    ? {
        title: vscode.l10n.t('Go to the hardest spot'),
        command: COMMANDS.reveal,
        arguments: [uri.toString(), range.start, range.end],
      }
    : { title: vscode.l10n.t('Open the preview'), command: COMMANDS.preview };
}

function tooltip(passage: ScenePassage): string {
  const hardest = passage.events[passage.hardest];
  const lines = [
    passage.title || vscode.l10n.t('This passage'),
    vscode.l10n.t('{hand} hand: {run}', { hand: passage.hand, run: passage.run }),
    ...(hardest
      ? [
          vscode.l10n.t('Hardest: bar {bar}, beat {beat} ({written})', {
            bar: hardest.bar,
            beat: hardest.beat,
            written: hardest.written,
          }),
        ]
      : []),
    hardest ? vscode.l10n.t('Click to go there') : vscode.l10n.t('Click to open the preview'),
  ];
  return lines.join('\n');
}
