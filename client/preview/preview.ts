import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { ALTERNATIVES_REQUEST, type AlternativesParams, type AlternativesReply } from '../../server/protocol/messages';
import type { Scene } from '../../server/protocol/scene';
import type { Marking } from '../../server/scene/staff/marks';
import { ask } from '../ask';
import { countRecording, type HeardRecording } from '../commands/count-recording';
import { pin } from '../commands/pin';
import { fileName } from '../file-name';
import type { Scenes } from '../scenes';
import { Throttle } from '../throttle';
import type { HostMessage, NoteAddress, PanelMessage } from '../webview/messages';
import { nearestNote } from './nearest-note';
import { newNonce, page } from './page';
import { saveView } from './save-view';

export interface PreviewParts {
  readonly client: BaseLanguageClient;
  readonly scenes: Scenes;
  readonly output: vscode.LogOutputChannel;
}

/** Time between two reports of a moving cursor, ms. */
const CURSOR_REST = 60;
/** Time after an edit before the preview says that it is behind, ms: usually the new scene is there sooner. */
const LATE = 500;
/** The setting that says which fingerings the staff prints. */
const PRINTED = 'passagework.staff.fingerings';
const WORKING = vscode.l10n.t('Working out how to play it…');

/** One preview panel and the document it shows. */
export class Preview implements vscode.Disposable {
  private readonly subscriptions: vscode.Disposable[] = [];
  private readonly cursor = new Throttle(CURSOR_REST, () => this.sendCursor());
  private readonly closed = new vscode.EventEmitter<void>();
  readonly onDidClose = this.closed.event;
  private watch: vscode.Disposable | undefined;
  private late: ReturnType<typeof setTimeout> | undefined;
  private document: vscode.Uri | undefined;
  private listening = false;
  /** The scene that the panel has, or will have. */
  private posted: Scene | undefined;
  /** The highest turn of a note chosen in the panel; see `webview/messages.ts`. */
  private turn = 0;
  /** The recording listened to last, of the document shown. */
  private heard: HeardRecording | undefined;

  constructor(
    readonly panel: vscode.WebviewPanel,
    extension: vscode.ExtensionContext,
    private readonly parts: PreviewParts,
  ) {
    const dist = vscode.Uri.joinPath(extension.extensionUri, 'dist');
    panel.webview.options = { enableScripts: true, localResourceRoots: [dist] };
    panel.iconPath = vscode.Uri.joinPath(extension.extensionUri, 'client', 'media', 'icon.svg');
    this.subscriptions.push(
      panel.onDidDispose(() => this.dispose()),
      panel.webview.onDidReceiveMessage((message: PanelMessage) => this.receive(message)),
      parts.scenes.onDidChange((uri) => uri === this.document?.toString() && this.sendScene()),
      parts.scenes.onDidFail((message) => this.post({ type: 'failed', message })),
      vscode.workspace.onDidChangeTextDocument(({ document }) => this.shows(document.uri) && this.expectScene(document)),
      vscode.workspace.onDidChangeConfiguration((change) => {
        if (change.affectsConfiguration(PRINTED)) this.sendMarking();
      }),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => this.shows(textEditor.document.uri) && this.cursor.run()),
    );
    panel.webview.html = page({
      nonce: newNonce(),
      source: panel.webview.cspSource,
      script: panel.webview.asWebviewUri(vscode.Uri.joinPath(dist, 'webview.js')).toString(),
      language: vscode.env.language,
      words: vscode.l10n.bundle,
    });
  }

  get uri(): vscode.Uri | undefined {
    return this.document;
  }

  /** Shows another document; without one, says how to get one. */
  show(uri: vscode.Uri | undefined): void {
    if (uri && this.shows(uri)) return;
    this.watch?.dispose();
    this.document = uri;
    this.heard = undefined;
    this.panel.title = uri ? vscode.l10n.t('Preview {file}', { file: fileName(uri) }) : vscode.l10n.t('Passagework Preview');
    this.watch = uri && this.parts.scenes.watch(uri.toString());
    if (!this.listening) return;
    this.sendMarking();
    this.sendScene();
  }

  /** The panel is asked for a file of a view; it answers with the drawing. */
  export(view: 'board' | 'staff', format: 'svg' | 'png'): void {
    this.panel.reveal(undefined, true);
    this.post({ type: 'export', view, format });
  }

  /** Shows what a recording holds of the document shown. */
  hear(heard: HeardRecording): void {
    this.heard = heard;
    this.sendHeard();
  }

  dispose(): void {
    this.watch?.dispose();
    this.cursor.dispose();
    clearTimeout(this.late);
    for (const subscription of this.subscriptions.splice(0)) subscription.dispose();
    this.closed.fire();
    this.closed.dispose();
  }

  private shows(uri: vscode.Uri): boolean {
    return uri.toString() === this.document?.toString();
  }

  private get scene(): Scene | undefined {
    return this.document && this.parts.scenes.get(this.document.toString());
  }

  private post(message: HostMessage): void {
    if (this.listening) void this.panel.webview.postMessage(message);
  }

  private sendMarking(): void {
    const marking = vscode.workspace.getConfiguration(undefined, this.document).get<Marking>(PRINTED, 'changes');
    this.post({ type: 'marking', marking });
  }

  private sendHeard(): void {
    if (this.heard) this.post(this.heard.message);
  }

  private sendScene(): void {
    const message = this.sceneMessage();
    this.posted = message.type === 'scene' || message.type === 'change' ? this.scene : undefined;
    this.post(message);
  }

  private sceneMessage(): HostMessage {
    const { failure } = this.parts.scenes;
    if (failure) return { type: 'failed', message: failure };
    if (!this.document) return { type: 'failed', message: vscode.l10n.t('Open a .passage file to see how it is played.') };
    const scene = this.scene;
    if (!scene) return { type: 'working', text: WORKING };
    const at = this.cursorNote(scene);
    const change = this.parts.scenes.changeOf(this.posted);
    if (change?.version === scene.version) return { type: 'change', uri: scene.uri, change, ...(at && { at }) };
    return { type: 'scene', scene, ...(at && { at }) };
  }

  private expectScene(document: vscode.TextDocument): void {
    clearTimeout(this.late);
    this.late = setTimeout(() => {
      if (this.parts.scenes.failure) return;
      const awaited = !document.isClosed && this.shows(document.uri) && this.scene?.version !== document.version;
      if (awaited) this.post({ type: 'working', text: WORKING });
    }, LATE);
  }

  private sendCursor(): void {
    const scene = this.scene;
    const at = scene && this.cursorNote(scene);
    if (scene && at) this.post({ type: 'cursor', version: scene.version, at, turn: this.turn });
  }

  /** Nothing while several cursors are out: the preview then stays where it is. */
  private cursorNote(scene: Scene): NoteAddress | undefined {
    const editor = this.editor();
    if (!editor || editor.selections.length > 1 || editor.document.version !== scene.version) return undefined;
    return nearestNote(scene, editor.selection.active);
  }

  private editor(): vscode.TextEditor | undefined {
    const showing = vscode.window.visibleTextEditors.filter((editor) => this.shows(editor.document.uri));
    return showing.find((editor) => editor === vscode.window.activeTextEditor) ?? showing[0];
  }

  private async receive(message: PanelMessage): Promise<void> {
    switch (message.type) {
      case 'ready':
        this.listening = true;
        this.turn = 0;
        this.posted = undefined;
        this.sendMarking();
        this.sendScene();
        return this.sendHeard();
      case 'whole':
        this.posted = undefined;
        return this.sendScene();
      case 'reveal':
        this.turn = Math.max(this.turn, message.turn);
        return this.reveal(message);
      case 'pin': {
        const { uri, version, at, alternative } = message;
        return pin(this.parts.client, { uri, version, passage: at.passage, event: at.event, alternative });
      }
      case 'count':
        return this.document && this.heard && countRecording(this.parts.client, this.document, this.heard, message.back);
      case 'ask':
        return this.answer(message);
      case 'export':
        return saveView(message, this.document);
      case 'broke':
        return this.parts.output.error(`Preview: ${message.message}`);
    }
  }

  private async answer({ uri, version, at }: Extract<PanelMessage, { type: 'ask' }>): Promise<void> {
    const params: AlternativesParams = { uri, version, passage: at.passage, event: at.event };
    const unanswered = {
      what: vscode.l10n.t('The other fingerings are not shown'),
      again: vscode.l10n.t('choose the note again'),
    };
    const alternatives = await ask<AlternativesReply>(this.parts.client, ALTERNATIVES_REQUEST, params, unanswered);
    if (alternatives) this.post({ type: 'alternatives', version, at, alternatives });
  }

  private async reveal({ uri, version, at, focus }: Extract<PanelMessage, { type: 'reveal' }>): Promise<void> {
    const scene = this.scene;
    if (!scene || scene.uri !== uri || scene.version !== version || !this.document) return;
    const place = scene.passages[at.passage]?.events[at.event]?.range;
    if (!place) return;
    const document = await vscode.workspace.openTextDocument(this.document);
    if (document.version !== version) return;
    const { start, end } = place;
    const selection = new vscode.Selection(start.line, start.character, end.line, end.character);
    const open = this.editor();
    // A new editor must not cover the preview.
    const column =
      open?.viewColumn ?? (this.panel.viewColumn === vscode.ViewColumn.One ? vscode.ViewColumn.Beside : vscode.ViewColumn.One);
    await vscode.window.showTextDocument(document, { viewColumn: column, preserveFocus: !focus, selection });
  }
}
