import { vi } from 'vitest';

type Listener<T> = (value: T) => unknown;

/** As much of the `vscode` module as the client's own logic stands on; events fire by hand. */
export class EventEmitter<T> {
  private readonly listeners = new Set<Listener<T>>();
  readonly event = (listener: Listener<T>): Disposable => {
    this.listeners.add(listener);
    return new Disposable(() => this.listeners.delete(listener));
  };
  fire(value: T): void {
    for (const listener of [...this.listeners]) listener(value);
  }
  dispose(): void {
    this.listeners.clear();
  }
}

export class Disposable {
  constructor(private readonly callback: () => unknown) {}
  dispose(): void {
    this.callback();
  }
}

export class Uri {
  private constructor(
    private readonly text: string,
    readonly path: string,
  ) {}
  static parse(text: string): Uri {
    return new Uri(text, text.replace(/^\w+:\/\//, ''));
  }
  static joinPath(base: Uri, ...parts: string[]): Uri {
    // Two points go up a folder, as in the real one.
    return Uri.parse([base.text, ...parts].join('/').replace(/\/[^/]+\/\.\.(?=\/|$)/g, ''));
  }
  toString(): string {
    return this.text;
  }
}

export class Selection {
  readonly anchor: Position;
  readonly active: Position;
  constructor(startLine: number, startCharacter: number, endLine: number, endCharacter: number) {
    this.anchor = { line: startLine, character: startCharacter };
    this.active = { line: endLine, character: endCharacter };
  }
}

export class Range {
  readonly start: Position;
  readonly end: Position;
  constructor(...ends: [number, number, number, number] | [Position, Position]) {
    const [line, character, endLine, endCharacter] = ends;
    [this.start, this.end] =
      typeof line === 'object'
        ? (ends as [Position, Position])
        : [
            { line, character: character as number },
            { line: endLine ?? 0, character: endCharacter ?? 0 },
          ];
  }
}

export class WorkspaceEdit {
  readonly replaced: { readonly uri: Uri; readonly range: Range; readonly text: string }[] = [];
  replace(uri: Uri, range: Range, text: string): void {
    this.replaced.push({ uri, range, text });
  }
}

interface Position {
  readonly line: number;
  readonly character: number;
}
export interface FakeDocument {
  readonly uri: Uri;
  version: number;
  getText?(): string;
}

export class FileSystemError extends Error {
  constructor(
    message: string,
    readonly code: string,
  ) {
    super(message);
  }
}

export const FileType = { File: 1, Directory: 2 };

export class RelativePattern {
  constructor(
    readonly base: Uri,
    readonly pattern: string,
  ) {}
}

/** Watches nothing by itself: its events fire by hand. */
export class FileSystemWatcher {
  readonly created = new EventEmitter<Uri>();
  readonly onDidCreate = this.created.event;
  readonly onDidChange = new EventEmitter<Uri>().event;
  readonly onDidDelete = new EventEmitter<Uri>().event;
  disposed = false;
  dispose(): void {
    this.disposed = true;
  }
}
export const watchers: FileSystemWatcher[] = [];

/** Texts by their address. */
export const disk = new Map<string, string>();

function onDisk(uri: Uri): Uint8Array {
  const text = disk.get(uri.toString());
  if (text === undefined) throw new FileSystemError('not there', 'FileNotFound');
  return new TextEncoder().encode(text);
}

export interface FakeEditor {
  readonly document: FakeDocument;
  selections: { readonly active: Position }[];
  readonly selection: { readonly active: Position };
  readonly viewColumn: number;
}

export const ViewColumn = { One: 1, Beside: -2 };
export const closing = new EventEmitter<FakeDocument>();
export const selecting = new EventEmitter<{ textEditor: FakeEditor }>();
export const opening = new EventEmitter<FakeDocument>();
export const editing = new EventEmitter<{ document: FakeDocument }>();
export const documents = new Map<string, FakeDocument>();

/** Settings by name. */
export const configuration = new Map<string, unknown>();
export const configured = new EventEmitter<{ affectsConfiguration(name: string): boolean }>();

export const workspace = {
  onDidChangeConfiguration: configured.event,
  getConfiguration: () => ({ get: <T>(name: string, otherwise: T) => (configuration.get(name) as T | undefined) ?? otherwise }),
  onDidCloseTextDocument: closing.event,
  onDidChangeTextDocument: editing.event,
  onDidOpenTextDocument: opening.event,
  get textDocuments() {
    return [...documents.values()].filter(({ getText }) => getText);
  },
  fs: {
    stat: async (uri: Uri) => ({ type: FileType.File, size: onDisk(uri).length }),
    readFile: async (uri: Uri) => onDisk(uri),
  },
  createFileSystemWatcher(_: RelativePattern) {
    const watcher = new FileSystemWatcher();
    watchers.push(watcher);
    return watcher;
  },
  applyEdit: vi.fn(async (_edit: WorkspaceEdit) => true),
  openTextDocument: vi.fn(async (uri: Uri) => documents.get(uri.toString())),
};
export const window = {
  visibleTextEditors: [] as FakeEditor[],
  activeTextEditor: undefined as FakeEditor | undefined,
  onDidChangeTextEditorSelection: selecting.event,
  showTextDocument: vi.fn(),
  setStatusBarMessage: vi.fn(),
  showWarningMessage: vi.fn(),
  showErrorMessage: vi.fn(async (_message: string, ..._offers: string[]): Promise<string | undefined> => undefined),
};
const registered = new Map<string, () => unknown>();
export const commands = {
  registered,
  registerCommand(name: string, run: () => unknown) {
    registered.set(name, run);
    return new Disposable(() => registered.delete(name));
  },
  executeCommand: vi.fn(async (_name: string) => {}),
};
export const env = { language: 'en' };
/** Nothing is translated. */
export const l10n = {
  bundle: undefined as Readonly<Record<string, string>> | undefined,
  t: (message: string, args: Readonly<Record<string, string | number>> = {}) =>
    message.replace(/\{(\w+)\}/g, (hole, name: string) => String(args[name] ?? hole)),
};
