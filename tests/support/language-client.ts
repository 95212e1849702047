import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createMessageConnection, type MessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-jsonrpc/node';
import type {
  ClientCapabilities,
  Diagnostic,
  InitializeResult,
  PublishDiagnosticsParams,
  TextDocumentContentChangeEvent,
} from 'vscode-languageserver';
import type { SolvedParams } from '../../server/protocol/messages';

const SERVER = fileURLToPath(new URL('../../dist/server/node.js', import.meta.url));

/** What VS Code offers, as far as it matters to this server. */
export const PULLING: ClientCapabilities = {
  textDocument: {
    diagnostic: { dynamicRegistration: true },
    hover: { contentFormat: ['markdown', 'plaintext'] },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    completion: { completionItem: { snippetSupport: true } },
  },
  workspace: {
    configuration: true,
    workspaceFolders: true,
    diagnostics: { refreshSupport: true },
    workspaceEdit: { documentChanges: true },
  },
};

/** The least an editor can offer: everything is pushed to it. */
export const PLAIN: ClientCapabilities = {};

/** The built server in a process of its own, and the messages that go to and fro. */
export interface LanguageClient {
  readonly connection: MessageConnection;
  readonly process: ChildProcessWithoutNullStreams;
  readonly initialized: InitializeResult;
  /** Every set of problems that was pushed, in the order that they came. */
  readonly pushed: PublishDiagnosticsParams[];
  /** What the server logged. */
  readonly log: string[];
  /** How often the server asked to be asked for problems again. */
  readonly refreshes: () => number;
  open(uri: string, text: string, version?: number): Promise<void>;
  change(uri: string, version: number, ...changes: TextDocumentContentChangeEvent[]): Promise<void>;
  close(uri: string): Promise<void>;
  request<R>(method: string, params: unknown): Promise<R>;
  /** Waits until a version has been fingered. */
  solved(uri: string, version: number): Promise<void>;
  /** The problems of a version, once they have been pushed with the fingering. */
  problems(uri: string, version: number): Promise<readonly Diagnostic[]>;
  /** Asks for the problems, again where the server says that the text has changed. */
  pull(uri: string): Promise<readonly Diagnostic[]>;
  stop(): Promise<number | null>;
}

export interface Start {
  readonly capabilities?: ClientCapabilities;
  readonly options?: unknown;
  /** What Node is to run; the server itself unless told otherwise. */
  readonly program?: readonly string[];
  /** Settings by the document that they are asked for. */
  readonly settings?: (uri: string) => unknown;
}

/** Starts the built server; `npm run build` must have run. */
export function startServer(program: readonly string[] = [SERVER, '--stdio']): ChildProcessWithoutNullStreams {
  if (!existsSync(program[0] ?? '')) throw new Error(`There is no ${program[0]}: run \`npm run build\` first.`);
  return spawn(process.execPath, program, { stdio: 'pipe' });
}

export async function startClient({
  capabilities = PLAIN,
  options,
  settings = () => ({}),
  program,
}: Start = {}): Promise<LanguageClient> {
  const child = startServer(program);
  const connection = createMessageConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  const pushed: PublishDiagnosticsParams[] = [];
  const log: string[] = [];
  const solved: SolvedParams[] = [];
  const heard: (() => void)[] = [];
  let refreshes = 0;
  const wake = () => {
    for (const go of heard.splice(0)) go();
  };
  connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
    pushed.push(params);
    wake();
  });
  connection.onNotification('passagework/solved', (params: SolvedParams) => {
    solved.push(params);
    wake();
  });
  connection.onNotification('window/logMessage', ({ message }: { message: string }) => {
    log.push(message);
  });
  connection.onRequest('workspace/configuration', ({ items }: { items: { scopeUri: string }[] }) =>
    Promise.all(items.map(({ scopeUri }) => settings(scopeUri))),
  );
  connection.onRequest('client/registerCapability', () => null);
  connection.onRequest('workspace/diagnostic/refresh', () => {
    refreshes++;
    return null;
  });
  connection.listen();

  const initialized: InitializeResult = await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: null,
    capabilities,
    initializationOptions: options,
  });
  await connection.sendNotification('initialized', {});

  const client: LanguageClient = {
    connection,
    process: child,
    initialized,
    pushed,
    log,
    refreshes: () => refreshes,
    open: (uri, text, version = 1) =>
      connection.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'passage', version, text } }),
    change: (uri, version, ...contentChanges) =>
      connection.sendNotification('textDocument/didChange', { textDocument: { uri, version }, contentChanges }),
    close: (uri) => connection.sendNotification('textDocument/didClose', { textDocument: { uri } }),
    request: (method, params) => connection.sendRequest(method, params),
    async solved(uri, version) {
      while (!solved.some((each) => each.uri === uri && each.version === version))
        await new Promise<void>((go) => heard.push(go));
    },
    async problems(uri, version) {
      await client.solved(uri, version);
      const found = pushed.findLast((each) => each.uri === uri && each.version === version);
      if (!found) throw new Error(`Version ${version} was solved but its problems were not pushed.`);
      return found.diagnostics;
    },
    async pull(uri) {
      for (;;) {
        try {
          const report = await connection.sendRequest<{ items: Diagnostic[] }>('textDocument/diagnostic', {
            textDocument: { uri },
          });
          return report.items;
        } catch (error) {
          if (!(error as { data?: { retriggerRequest?: boolean } }).data?.retriggerRequest) throw error;
        }
      }
    },
    async stop() {
      const ended = new Promise<number | null>((done) => child.once('exit', done));
      if (child.exitCode !== null) return child.exitCode;
      await connection.sendRequest('shutdown');
      await connection.sendNotification('exit');
      return ended;
    },
  };
  return client;
}
