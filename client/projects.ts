import * as vscode from 'vscode';
import type { BaseLanguageClient, Middleware } from 'vscode-languageclient';
import { PROJECT_FILE } from '../server/protocol/settings';

/** The longest text that is taken for a project file, bytes. */
const LONGEST_PROJECT = 1_000_000;

/**
 * Hands the server, with a file's settings, the text of the file's `passagework.json`: the nearest one in its folder or above.
 * What is open in an editor counts as it stands on the disk, as for the command.
 */
export class Projects implements vscode.Disposable {
  private readonly texts = new Map<string, Promise<string | undefined>>();
  private readonly watcher = vscode.workspace.createFileSystemWatcher(`**/${PROJECT_FILE}`);

  /** Adds to each answer about settings what the server asked for. */
  readonly middleware: Middleware = {
    workspace: {
      configuration: async ({ items }, token, next) => {
        const answer = await next({ items }, token);
        if (!Array.isArray(answer)) return answer;
        return Promise.all(
          items.map(async ({ scopeUri }, index) => {
            const project = scopeUri === undefined ? undefined : await this.textFor(vscode.Uri.parse(scopeUri));
            return project === undefined ? answer[index] : { ...answer[index], project };
          }),
        );
      },
    },
  };

  /** Has the server ask again when a project file changes. */
  watch(client: BaseLanguageClient): void {
    const changed = () => {
      this.texts.clear();
      if (client.isRunning()) void client.sendNotification('workspace/didChangeConfiguration', { settings: null });
    };
    for (const event of [this.watcher.onDidChange, this.watcher.onDidCreate, this.watcher.onDidDelete]) event(changed);
  }

  dispose(): void {
    this.watcher.dispose();
  }

  /** The text of the project file that holds for a document; undefined where there is none. */
  textFor(uri: vscode.Uri): Promise<string | undefined> {
    const folder = uri.scheme === 'untitled' ? vscode.workspace.workspaceFolders?.[0]?.uri : vscode.Uri.joinPath(uri, '..');
    return folder ? this.inOrAbove(folder) : Promise.resolve(undefined);
  }

  private inOrAbove(folder: vscode.Uri): Promise<string | undefined> {
    const key = folder.toString();
    const known = this.texts.get(key) ?? this.read(folder);
    this.texts.set(key, known);
    return known;
  }

  private async read(folder: vscode.Uri): Promise<string | undefined> {
    const file = vscode.Uri.joinPath(folder, PROJECT_FILE);
    try {
      const { type, size } = await vscode.workspace.fs.stat(file);
      if (type & vscode.FileType.File && size <= LONGEST_PROJECT)
        return new TextDecoder().decode(await vscode.workspace.fs.readFile(file));
    } catch {
      // There is none here.
    }
    const above = vscode.Uri.joinPath(folder, '..');
    return above.path === folder.path ? undefined : this.inOrAbove(above);
  }
}
