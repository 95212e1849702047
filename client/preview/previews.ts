import * as vscode from 'vscode';
import { COMMANDS, LANGUAGE } from '../../server/protocol/messages';
import { Preview, type PreviewParts } from './preview';

const VIEW_TYPE = 'passagework.preview';

/** One preview, beside the text, that follows the passage being edited and comes back when the window is loaded again. */
export function registerPreviews(
  context: vscode.ExtensionContext,
  parts: PreviewParts,
): { readonly open: (uri: vscode.Uri) => Preview } {
  let preview: Preview | undefined;

  const adopt = (panel: vscode.WebviewPanel): Preview => {
    const adopted = new Preview(panel, context, parts);
    adopted.onDidClose(() => {
      if (preview !== adopted) return;
      preview = undefined;
      void vscode.commands.executeCommand('setContext', 'passagework.previewOpen', false);
    });
    preview = adopted;
    void vscode.commands.executeCommand('setContext', 'passagework.previewOpen', true);
    return adopted;
  };

  const open = (uri: vscode.Uri | undefined): Preview => {
    if (preview) preview.panel.reveal(undefined, true);
    // Kept while hidden, so that what is being played plays on behind another tab.
    const options = { retainContextWhenHidden: true, enableFindWidget: true };
    const column = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
    const shown =
      preview ?? adopt(vscode.window.createWebviewPanel(VIEW_TYPE, vscode.l10n.t('Passagework Preview'), column, options));
    shown.show(uri ?? shown.uri);
    return shown;
  };

  const exportView = (view: 'board' | 'staff', format: 'svg' | 'png') => () => {
    if (preview) preview.export(view, format);
    else void vscode.window.showInformationMessage(vscode.l10n.t('Open the preview first: its drawing is what gets saved.'));
  };

  context.subscriptions.push(
    vscode.commands.registerCommand(COMMANDS.preview, async (target?: vscode.Uri | string) => {
      const wanted = typeof target === 'string' ? vscode.Uri.parse(target) : (target ?? activePassage());
      // Asked for from the tour, before there is anything to show.
      if (!wanted && !preview) await vscode.commands.executeCommand('passagework.newPassage');
      open(wanted ?? activePassage());
    }),
    vscode.commands.registerCommand('passagework.saveFingerboard', exportView('board', 'svg')),
    vscode.commands.registerCommand('passagework.saveFingerboardPng', exportView('board', 'png')),
    vscode.commands.registerCommand('passagework.saveStaff', exportView('staff', 'svg')),
    vscode.commands.registerCommand('passagework.saveStaffPng', exportView('staff', 'png')),
    vscode.window.onDidChangeActiveTextEditor((editor) => {
      if (editor?.document.languageId === LANGUAGE && follows()) preview?.show(editor.document.uri);
    }),
    vscode.window.registerWebviewPanelSerializer(VIEW_TYPE, {
      async deserializeWebviewPanel(panel, state: unknown) {
        const { uri } = (state ?? {}) as { uri?: unknown };
        adopt(panel).show(typeof uri === 'string' ? vscode.Uri.parse(uri) : activePassage());
      },
    }),
  );
  return { open };
}

function activePassage(): vscode.Uri | undefined {
  const editors = [vscode.window.activeTextEditor, ...vscode.window.visibleTextEditors];
  return editors.find((editor) => editor?.document.languageId === LANGUAGE)?.document.uri;
}

function follows(): boolean {
  return vscode.workspace.getConfiguration('passagework').get('preview.followEditor', true);
}
