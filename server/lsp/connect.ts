import {
  type CancellationToken,
  type ClientCapabilities,
  type Connection,
  DidChangeConfigurationNotification,
  ErrorCodes,
  type InitializeParams,
  ResponseError,
  TextDocuments,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { type ClientOptions, SOLVED_NOTIFICATION, type SolvedParams } from '../protocol/messages';
import { Cancelled, type Runtime } from '../workspace/pace';
import { createWorkspace, type Workspace } from '../workspace/workspace';
import { capabilities } from './capabilities';
import { type Configuration, createConfiguration } from './configuration';
import { type Diagnostics, type DiagnosticsAnswer, pulledDiagnostics, pulls, pushedDiagnostics } from './diagnostics';
import { createGuard } from './guard';
import { type Places, placesIn } from './places';
import type { DocumentRequest } from './request';
import { REQUESTS } from './requests';

/** What is known once the client has introduced itself. */
interface Session {
  readonly abilities: ClientCapabilities;
  readonly options: ClientOptions;
  readonly configuration: Configuration;
  readonly workspace: Workspace;
  readonly diagnostics: Diagnostics;
  readonly answerDiagnostics: DiagnosticsAnswer | undefined;
}

/** Starts the language server on a connection. It reads no files: all it knows comes through the connection. */
export function connect(connection: Connection, runtime: Runtime): void {
  const guard = createGuard(connection);
  const documents = new TextDocuments(TextDocument);
  let session: Session | undefined;

  function placesOf(uri: string, version: number): Places | undefined {
    const document = documents.get(uri);
    return document?.version === version ? placesIn(document) : undefined;
  }

  function begin(params: InitializeParams): Session {
    const abilities = params.capabilities;
    const options: ClientOptions = params.initializationOptions ?? {};
    const configuration = createConfiguration(connection, abilities);
    const setup = { connection, abilities, pages: options.rulePages, workspace: () => workspace, placesOf };
    const pulled = pulls(abilities) ? pulledDiagnostics(setup) : undefined;
    const diagnostics = pulled ?? pushedDiagnostics(setup);
    const workspace = createWorkspace(runtime, configuration.settingsFor, {
      drafted: diagnostics.drafted,
      solved(uri, snapshot) {
        diagnostics.solved(uri, snapshot);
        const told: SolvedParams = { uri, version: snapshot.version };
        void connection.sendNotification(SOLVED_NOTIFICATION, told);
      },
      failed: (uri, error) => guard.fault(`Working out ${uri}`, error),
    });
    return { abilities, options, configuration, workspace, diagnostics, answerDiagnostics: pulled?.answer };
  }

  function begun(): Session {
    if (!session) throw new ResponseError(ErrorCodes.ServerNotInitialized, 'The client has not sent “initialize” yet.');
    return session;
  }

  connection.onInitialize((params) => {
    session = begin(params);
    return capabilities(session.abilities);
  });

  connection.onInitialized(() => {
    const { configuration, abilities } = begun();
    configuration.subscribe();
    // Another folder may bring other settings for documents that are open already.
    if (abilities.workspace?.workspaceFolders) connection.workspace.onDidChangeWorkspaceFolders(() => settingsChanged());
  });

  function settingsChanged(): void {
    const { workspace, diagnostics, abilities } = begun();
    workspace.reconfigure();
    diagnostics.outdated();
    if (abilities.workspace?.inlayHint?.refreshSupport) connection.languages.inlayHint.refresh().catch(() => undefined);
    if (abilities.workspace?.codeLens?.refreshSupport)
      connection.sendRequest('workspace/codeLens/refresh').catch(() => undefined);
  }

  connection.onNotification(DidChangeConfigurationNotification.type, (params) =>
    guard.take('workspace/didChangeConfiguration', () => {
      begun().configuration.told(params?.settings);
      settingsChanged();
    }),
  );

  documents.onDidChangeContent(({ document }) =>
    guard.take('textDocument/didChange', () => begun().workspace.write(document.uri, document.getText(), document.version)),
  );
  documents.onDidClose(({ document }) =>
    guard.take('textDocument/didClose', () => {
      begun().workspace.close(document.uri);
      begun().diagnostics.closed(document.uri);
    }),
  );

  async function reply(request: DocumentRequest, params: AboutDocument): Promise<unknown> {
    const { workspace, ...client } = begun();
    const uri = uriOf(params);
    try {
      const known = await (request.needs === 'draft' ? workspace.draft(uri) : workspace.solved(uri));
      if (!known) return null;
      const places = placesOf(uri, known.version);
      if (!places) throw new Cancelled();
      return request.answer(params, known, places, client);
    } catch (error) {
      if (error instanceof Cancelled && request.patient) return reply(request, params);
      throw error;
    }
  }

  for (const request of REQUESTS) {
    connection.onRequest(request.method, (params: AboutDocument, token: CancellationToken) =>
      guard.answer(request.method, token, () => reply(request, params)),
    );
  }

  connection.languages.diagnostics.on(
    async (params, token) =>
      guard.answer('textDocument/diagnostic', token, () => {
        const ask = begun().answerDiagnostics;
        if (!ask) throw new ResponseError(ErrorCodes.InvalidRequest, 'This client has said that it does not pull problems.');
        return ask(params.textDocument.uri, params.previousResultId);
      }) as never,
  );

  documents.listen(connection);
  connection.listen();
}

interface AboutDocument {
  readonly uri?: unknown;
  readonly textDocument?: { readonly uri?: unknown };
}

/** The document that a request is about; a request without one is the client's mistake, and told so. */
function uriOf(params: AboutDocument | undefined): string {
  const uri = params?.textDocument?.uri ?? params?.uri;
  if (typeof uri !== 'string') throw new ResponseError(ErrorCodes.InvalidParams, 'This request must name a document.');
  return uri;
}
