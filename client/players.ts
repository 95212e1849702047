import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  LONGEST_PLAYER,
  PLAYER_CHANGED_NOTIFICATION,
  type PlayerParams,
  READ_PLAYER_REQUEST,
  type ReadPlayerReply,
} from '../server/protocol/messages';
import { fileName } from './file-name';
import { reasonOf } from './reason';
import { Throttle } from './throttle';

/** Time between two reports that a file is being changed, ms: every report fingers its passages anew. */
const REST = 300;

interface Named {
  /** The passages that name the file, each as it does. */
  readonly by: Map<string, PlayerParams>;
  readonly throttle: Throttle;
  readonly watcher: vscode.FileSystemWatcher;
}

/**
 * Hands the server the player files that passages name, and tells it when they change: the server itself reads no files, and
 * they may be anywhere that VS Code can read. What is open in an editor counts as it stands there, saved or not.
 */
export class PlayerFiles implements vscode.Disposable {
  private readonly named = new Map<string, Named>();
  private readonly subscriptions: vscode.Disposable[];

  constructor(private readonly client: BaseLanguageClient) {
    const edited = (document: vscode.TextDocument) => this.changed(document.uri);
    this.subscriptions = [
      client.onRequest(READ_PLAYER_REQUEST, (params: PlayerParams) => this.read(params)),
      vscode.workspace.onDidChangeTextDocument(({ document }) => edited(document)),
      vscode.workspace.onDidOpenTextDocument(edited),
      vscode.workspace.onDidCloseTextDocument((document) => {
        edited(document);
        this.forget(document.uri.toString());
      }),
    ];
  }

  dispose(): void {
    for (const subscription of this.subscriptions) subscription.dispose();
    for (const { throttle, watcher } of this.named.values()) {
      throttle.dispose();
      watcher.dispose();
    }
    this.named.clear();
  }

  /** The files that a passage names. */
  namedBy(passage: string): readonly vscode.Uri[] {
    return [...this.named].flatMap(([key, { by }]) =>
      [...by.values()].some(({ uri }) => uri === passage) ? [vscode.Uri.parse(key)] : [],
    );
  }

  /** The text of a player file as a passage names it. */
  async read(params: PlayerParams): Promise<ReadPlayerReply> {
    const uri = playerUri(params);
    if (!uri) return { missing: vscode.l10n.t('this passage has not been saved yet, so there is no folder to look in') };
    this.remember(uri, params);
    const open = vscode.workspace.textDocuments.find((document) => document.uri.toString() === uri.toString());
    if (open) return { text: open.getText() };
    try {
      const { type, size } = await vscode.workspace.fs.stat(uri);
      if (type & vscode.FileType.Directory) return { missing: vscode.l10n.t('it is a folder') };
      if (size > LONGEST_PLAYER) return { missing: vscode.l10n.t('it is too large to be a player file') };
      return { text: new TextDecoder().decode(await vscode.workspace.fs.readFile(uri)) };
    } catch (error) {
      const gone = error instanceof vscode.FileSystemError && error.code === 'FileNotFound';
      return {
        missing: gone
          ? vscode.l10n.t('there is no such file')
          : vscode.l10n.t("it can't be read ({reason})", { reason: reasonOf(error) }),
      };
    }
  }

  private remember(uri: vscode.Uri, params: PlayerParams): void {
    const key = uri.toString();
    const known = this.named.get(key) ?? this.watched(uri);
    this.named.set(key, known);
    known.by.set(`${params.uri}\n${params.file}`, params);
  }

  private watched(uri: vscode.Uri): Named {
    const name = fileName(uri).replace(/[[\]{}*?]/g, '?');
    const watcher = vscode.workspace.createFileSystemWatcher(new vscode.RelativePattern(vscode.Uri.joinPath(uri, '..'), name));
    for (const event of [watcher.onDidChange, watcher.onDidCreate, watcher.onDidDelete]) event((file) => this.changed(file));
    return { by: new Map(), throttle: new Throttle(REST, async () => this.tell(uri)), watcher };
  }

  private changed(uri: vscode.Uri): void {
    this.named.get(uri.toString())?.throttle.run();
  }

  private async tell(uri: vscode.Uri): Promise<void> {
    if (!this.client.isRunning()) return;
    for (const params of this.named.get(uri.toString())?.by.values() ?? [])
      await this.client.sendNotification(PLAYER_CHANGED_NOTIFICATION, params);
  }

  /** A passage that is closed wants no more news; a file that no passage wants is not watched. */
  private forget(passage: string): void {
    for (const [key, { by, throttle, watcher }] of this.named) {
      for (const [each, { uri }] of by) if (uri === passage) by.delete(each);
      if (by.size > 0) continue;
      throttle.dispose();
      watcher.dispose();
      this.named.delete(key);
    }
  }
}

/** Where a passage's player file is: below the passage's folder, whatever the name says; undefined for a passage without a folder. */
export function playerUri({ uri, file }: PlayerParams): vscode.Uri | undefined {
  const passage = vscode.Uri.parse(uri);
  const parts = file.split('/').filter((part) => part !== '' && part !== '.' && part !== '..');
  const folder = passage.scheme === 'untitled' ? vscode.workspace.workspaceFolders?.[0]?.uri : vscode.Uri.joinPath(passage, '..');
  return folder && vscode.Uri.joinPath(folder, ...parts);
}
