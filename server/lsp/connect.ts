import { type CancellationToken, ErrorCodes, type MessageConnection, ResponseError } from 'vscode-jsonrpc';
import type { DocumentDiagnosticParams, InitializeParams } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import {
  type ClientOptions,
  EDIT_PLAYER_REQUEST,
  type EditPlayerParams,
  MEASURE_REQUEST,
  PLAYER_CHANGED_NOTIFICATION,
  PLAYER_LANGUAGE,
  type PlayerParams,
  SOLVED_NOTIFICATION,
  type SolvedParams,
} from '../protocol/messages';
import { Cancelled, createPace, type Runtime } from '../workspace/pace';
import { createPlayers } from '../workspace/players';
import { createWorkspace, type Workspace } from '../workspace/workspace';
import { capabilities } from './capabilities';
import { FAILURE, MESSAGE } from './codes';
import { type Configuration, createConfiguration } from './configuration';
import {
  type Diagnostics,
  type DiagnosticsAnswer,
  playerReport,
  pulledDiagnostics,
  pulls,
  pushedDiagnostics,
} from './diagnostics';
import { Documents } from './documents';
import { createGuard } from './guard';
import { checkParams } from './params';
import { type Places, placesIn } from './places';
import { playerReader } from './player-files';
import { editPlayer, measured, playerAnswer } from './player-requests';
import type { Client, DocumentRequest } from './request';
import { REQUESTS } from './requests';
import { SentScenes } from './sent-scenes';
import { SentTokens } from './sent-tokens';
import { Typing } from './typing';

/** What the machine that the server runs on must do for it. */
export interface Host extends Runtime {
  /** The client has told which process it is; when that ends, so must the server. */
  follow(processId: number): void;
  /** The client has said that the server is not needed any more. */
  end(afterShutdown: boolean): void;
}

/** What is known once the client has introduced itself. */
interface Session extends Client {
  readonly configuration: Configuration;
  readonly workspace: Workspace;
  readonly diagnostics: Diagnostics;
  /** Absent for a client that problems are pushed to. */
  readonly answerDiagnostics: DiagnosticsAnswer | undefined;
}

/** Starts the language server on a connection. It reads no files: all it knows comes through the connection. */
export function connect(connection: MessageConnection, host: Host): void {
  const guard = createGuard((message) => void connection.sendNotification('window/logMessage', { type: MESSAGE.error, message }));
  const documents = new Documents();
  const typing = new Typing((uri) => session?.diagnostics.rested(uri));
  let session: Session | undefined;
  let shutDown = false;

  function placesOf(uri: string, version: number): Places | undefined {
    const document = documents.get(uri);
    return document?.version === version ? placesIn(document) : undefined;
  }

  function begin({ capabilities: abilities, initializationOptions }: InitializeParams): Session {
    const options: ClientOptions = initializationOptions ?? {};
    const configuration = createConfiguration(connection, abilities);
    const setup = { connection, abilities, pages: options.rulePages, workspace: () => workspace, typing, placesOf };
    const pulled = pulls(abilities) ? pulledDiagnostics(setup) : undefined;
    const diagnostics = pulled ?? pushedDiagnostics(setup);
    const players = createPlayers(playerReader(connection, options));
    const workspace = createWorkspace(
      host,
      configuration.settingsFor,
      {
        drafted: diagnostics.drafted,
        solved(uri, snapshot) {
          diagnostics.solved(uri, snapshot);
          const told: SolvedParams = { uri, version: snapshot.version };
          void connection.sendNotification(SOLVED_NOTIFICATION, told);
        },
        failed: (uri, error) => guard.fault(`Working out ${uri}`, error),
      },
      players,
    );
    return {
      abilities,
      options,
      scenes: new SentScenes(),
      tokens: new SentTokens(),
      configuration,
      workspace,
      diagnostics,
      answerDiagnostics: pulled?.answer,
    };
  }

  /** The life of a server: nothing before `initialize`, nothing but `exit` after `shutdown`. */
  function running(): Session {
    if (shutDown) throw new ResponseError(ErrorCodes.InvalidRequest, 'The server has been shut down.');
    if (!session) throw new ResponseError(FAILURE.notInitialized, 'The client has not sent “initialize” yet.');
    return session;
  }

  function onRequest<P>(method: string, work: (params: P, token: CancellationToken) => unknown): void {
    // Without parameters the token comes first.
    connection.onRequest(method, (...given: [P, CancellationToken] | [CancellationToken]) => {
      const token = given.at(-1) as CancellationToken;
      return guard.answer(method, token, () => {
        const params = (given.length > 1 ? given[0] : undefined) as P;
        if (method !== 'initialize') running();
        checkParams(method, params);
        return work(params, token);
      });
    });
  }

  function onNotification<P>(method: string, work: (params: P) => void): void {
    connection.onNotification(method, (params: P) =>
      guard.take(method, () => {
        checkParams(method, params);
        work(params);
      }),
    );
  }

  onRequest('initialize', (params: InitializeParams) => {
    if (session) throw new ResponseError(ErrorCodes.InvalidRequest, 'The server is initialized already.');
    session = begin(params);
    if (params.processId) host.follow(params.processId);
    return capabilities(session.abilities);
  });
  onNotification('initialized', () => running().configuration.subscribe());
  onRequest('shutdown', () => {
    running();
    shutDown = true;
    return null;
  });
  onNotification('exit', () => host.end(shutDown));

  function written(document: TextDocument | undefined): void {
    if (!document) return;
    if (document.languageId === PLAYER_LANGUAGE) running().diagnostics.player(document);
    else running().workspace.write(document.uri, document.getText(), document.version);
  }
  onNotification('textDocument/didOpen', (params: Parameters<Documents['opened']>[0]) => written(documents.opened(params)));
  onNotification('textDocument/didChange', (params: Parameters<Documents['changed']>[0]) => {
    const document = documents.changed(params);
    if (document) typing.changed(params, document);
    written(document);
  });
  onNotification('textDocument/didClose', (params: Parameters<Documents['closed']>[0]) => {
    const uri = documents.closed(params);
    typing.ended(uri);
    running().workspace.close(uri);
    running().diagnostics.closed(uri);
    running().scenes.closed(uri);
    running().tokens.closed(uri);
  });

  function settingsChanged(): void {
    running().workspace.reconfigure();
    running().diagnostics.outdated();
    refreshShown();
  }

  /** What is shown between the lines was worked out with what no longer holds. */
  function refreshShown(): void {
    const { abilities } = running();
    const refresh = (method: string) => void connection.sendRequest(method).catch(() => undefined);
    if (abilities.workspace?.inlayHint?.refreshSupport) refresh('workspace/inlayHint/refresh');
    if (abilities.workspace?.codeLens?.refreshSupport) refresh('workspace/codeLens/refresh');
  }
  onNotification('workspace/didChangeConfiguration', (params: { settings?: unknown } | undefined) => {
    running().configuration.told(params?.settings);
    settingsChanged();
  });
  // Another folder may bring other settings for documents that are open already.
  onNotification('workspace/didChangeWorkspaceFolders', settingsChanged);

  onNotification(PLAYER_CHANGED_NOTIFICATION, ({ uri, file }: PlayerParams) => {
    running().workspace.playerChanged(uri, file);
    running().diagnostics.outdated();
    refreshShown();
  });
  onRequest(MEASURE_REQUEST, measured);
  onRequest(EDIT_PLAYER_REQUEST, (params: EditPlayerParams) =>
    editPlayer(params, (text) => placesIn(TextDocument.create('', PLAYER_LANGUAGE, 0, text))),
  );

  async function reply(request: DocumentRequest, params: AboutDocument, token: CancellationToken): Promise<unknown> {
    const { workspace, abilities, options, scenes, tokens } = running();
    const uri = uriOf(params);
    const document = documents.get(uri);
    if (document?.languageId === PLAYER_LANGUAGE)
      return playerAnswer(request.method, params, document, { abilities, options, scenes, tokens });
    try {
      const known = await workspace[request.needs](uri);
      if (!known) return null;
      const places = placesOf(uri, known.version);
      if (!places) throw new Cancelled();
      const pace = createPace(host, () => !token.isCancellationRequested && placesOf(uri, known.version) !== undefined);
      return await request.answer(params, known, places, { abilities, options, scenes, tokens }, pace);
    } catch (error) {
      if (error instanceof Cancelled && request.patient && !token.isCancellationRequested) return reply(request, params, token);
      throw error;
    }
  }
  for (const request of REQUESTS) onRequest(request.method, (params: AboutDocument, token) => reply(request, params, token));

  onRequest('textDocument/diagnostic', (params: DocumentDiagnosticParams) => {
    const ask = running().answerDiagnostics;
    if (!ask)
      throw new ResponseError(
        ErrorCodes.InvalidRequest,
        'This client has not said that it asks for problems; they are sent to it.',
      );
    const document = documents.get(uriOf(params));
    return document?.languageId === PLAYER_LANGUAGE ? playerReport(document) : ask(uriOf(params), params.previousResultId);
  });

  connection.listen();
}

/** A question about a document: the protocol's name it within `textDocument`, ours by `uri` (see params.ts). */
type AboutDocument = { readonly uri: string } | { readonly textDocument: { readonly uri: string } };

function uriOf(params: AboutDocument): string {
  return 'textDocument' in params ? params.textDocument.uri : params.uri;
}
