import * as vscode from 'vscode';
import type { BaseLanguageClient, Middleware } from 'vscode-languageclient';
import { PROJECT_FILE, type ProjectSettings } from '../server/protocol/settings';

/** The longest text that is taken for a project file, bytes. */
const LONGEST_PROJECT = 1_000_000;
/** And for its baseline: some hundred thousand findings. */
const LONGEST_BASELINE = 10_000_000;

/** A project file and what it refers to. */
interface Project {
  readonly folder: vscode.Uri;
  readonly text: string;
  readonly baseline?: { readonly file: vscode.Uri; readonly text: string | undefined };
}

/**
 * Hands the server, with a file's settings, the text of the file's `passagework.json`, the nearest one in its folder or above, and of
 * the baseline that it names. What is open in an editor counts as it stands on the disk, as for the command.
 */
export class Projects implements vscode.Disposable {
  private readonly found = new Map<string, Promise<Project | undefined>>();
  private readonly baselines = new Set<string>();
  // A baseline may have any name, so any JSON file may be one.
  private readonly watcher = vscode.workspace.createFileSystemWatcher('**/*.json');

  /** Adds to each answer about settings what the server asked for. */
  readonly middleware: Middleware = {
    workspace: {
      configuration: async ({ items }, token, next) => {
        const answer = await next({ items }, token);
        if (!Array.isArray(answer)) return answer;
        return Promise.all(
          items.map(async ({ scopeUri }, index) => {
            const settings = scopeUri === undefined ? undefined : await this.settingsFor(vscode.Uri.parse(scopeUri));
            return settings ? { ...answer[index], ...settings } : answer[index];
          }),
        );
      },
    },
  };

  /** Has the server ask again when a project file or its baseline changes. */
  watch(client: BaseLanguageClient): void {
    const changed = (uri: vscode.Uri) => {
      if (!uri.path.endsWith(`/${PROJECT_FILE}`) && !this.baselines.has(uri.toString())) return;
      this.found.clear();
      if (client.isRunning()) void client.sendNotification('workspace/didChangeConfiguration', { settings: null });
    };
    for (const event of [this.watcher.onDidChange, this.watcher.onDidCreate, this.watcher.onDidDelete]) event(changed);
  }

  dispose(): void {
    this.watcher.dispose();
  }

  /** The text of the project file that holds for a document; undefined where there is none. */
  async textFor(uri: vscode.Uri): Promise<string | undefined> {
    return (await this.projectOf(uri))?.text;
  }

  private async settingsFor(uri: vscode.Uri): Promise<ProjectSettings | undefined> {
    const project = await this.projectOf(uri);
    if (!project) return undefined;
    const { folder, text, baseline } = project;
    const known = baseline?.text === undefined ? {} : { baseline: baseline.text, recordedAs: below(baseline.file, uri) };
    return { project: text, path: below(vscode.Uri.joinPath(folder, PROJECT_FILE), uri), ...known };
  }

  private projectOf(uri: vscode.Uri): Promise<Project | undefined> {
    const folder = uri.scheme === 'untitled' ? vscode.workspace.workspaceFolders?.[0]?.uri : vscode.Uri.joinPath(uri, '..');
    return folder ? this.inOrAbove(folder) : Promise.resolve(undefined);
  }

  private inOrAbove(folder: vscode.Uri): Promise<Project | undefined> {
    const key = folder.toString();
    const known = this.found.get(key) ?? this.read(folder);
    this.found.set(key, known);
    return known;
  }

  private async read(folder: vscode.Uri): Promise<Project | undefined> {
    const text = await textOf(vscode.Uri.joinPath(folder, PROJECT_FILE), LONGEST_PROJECT);
    if (text !== undefined) {
      const named = baselineNamed(text);
      if (named === undefined) return { folder, text };
      const file = vscode.Uri.joinPath(folder, named);
      this.baselines.add(file.toString());
      return { folder, text, baseline: { file, text: await textOf(file, LONGEST_BASELINE) } };
    }
    const above = vscode.Uri.joinPath(folder, '..');
    return above.path === folder.path ? undefined : this.inOrAbove(above);
  }
}

/** What a file holds; undefined where there is none that could be read. */
async function textOf(file: vscode.Uri, most: number): Promise<string | undefined> {
  try {
    const { type, size } = await vscode.workspace.fs.stat(file);
    if (type & vscode.FileType.File && size <= most) return new TextDecoder().decode(await vscode.workspace.fs.readFile(file));
  } catch {
    // There is none.
  }
  return undefined;
}

/** Where a project file says that its baseline is. What else it says, and what is wrong in it, is the server's to tell. */
function baselineNamed(project: string): string | undefined {
  try {
    const named = JSON.parse(project)?.baseline;
    return typeof named === 'string' && named !== '' ? named : undefined;
  } catch {
    return undefined;
  }
}

/** A document as it is named from the folder of a file: `deep/a.passage`, `../a.passage`. */
function below(file: vscode.Uri, document: vscode.Uri): string {
  const from = file.path.split('/').slice(0, -1);
  const to = document.path.split('/');
  let same = 0;
  while (same < from.length && same < to.length - 1 && from[same] === to[same]) same++;
  return [...from.slice(same).map(() => '..'), ...to.slice(same)].join('/');
}
