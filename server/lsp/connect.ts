import {
  CodeLensRefreshRequest,
  type Connection,
  DidChangeConfigurationNotification,
  type DidChangeConfigurationParams,
  DidChangeTextDocumentNotification,
  DidChangeWorkspaceFoldersNotification,
  DidCloseTextDocumentNotification,
  InitializedNotification,
  InitializeRequest,
} from 'vscode-languageserver';
import { PLAYER_CHANGED_NOTIFICATION, PLAYER_LANGUAGE, type PlayerParams } from '../protocol/messages';
import type { Runtime } from '../workspace/pace';
import { answerRequests } from './answer-requests';
import { capabilities } from './capabilities';
import { createGuard, type Guard } from './guard';
import { beginSession, type Session } from './session';

/** Starts the language server on a connection whose messages come through the door (see door.ts). It reads no files: all it knows comes from there. */
export function connect(connection: Connection, runtime: Runtime): void {
  const guard = createGuard((message) => connection.console.error(message));
  connection.onInitialize((params, token) =>
    guard.answer(InitializeRequest.method, token, () => {
      const session = beginSession(connection, params, runtime, guard);
      listenTo(connection, session, guard);
      answerRequests(connection, session, runtime, guard);
      return capabilities(params.capabilities);
    }),
  );
  connection.listen();
}

/** Takes in what the client tells without being asked: texts, settings, player files. */
function listenTo(connection: Connection, session: Session, guard: Guard): void {
  const { abilities, configuration, diagnostics, documents, workspace } = session;
  const taken =
    <P>(method: string, work: (params: P) => void) =>
    (params: P) =>
      guard.take(method, () => work(params));

  /** What is shown between the lines was worked out with what no longer holds. */
  function refreshShown(): void {
    const unheard = () => undefined;
    if (abilities.workspace?.inlayHint?.refreshSupport) connection.languages.inlayHint.refresh().catch(unheard);
    if (abilities.workspace?.codeLens?.refreshSupport) connection.sendRequest(CodeLensRefreshRequest.type).catch(unheard);
  }
  function settingsChanged(): void {
    workspace.reconfigure();
    diagnostics.outdated();
    refreshShown();
  }

  documents.listen(connection);
  documents.onDidChangeContent(
    taken(DidChangeTextDocumentNotification.method, ({ document }) => {
      if (document.languageId === PLAYER_LANGUAGE) diagnostics.player(document);
      else workspace.write(document.uri, document.getText(), document.version);
    }),
  );
  documents.onDidClose(taken(DidCloseTextDocumentNotification.method, ({ document }) => session.closed(document.uri)));
  connection.onInitialized(
    taken(InitializedNotification.method, () => {
      configuration.subscribe();
      // Another folder may bring other settings for documents that are open already.
      if (abilities.workspace?.workspaceFolders)
        connection.workspace.onDidChangeWorkspaceFolders(taken(DidChangeWorkspaceFoldersNotification.method, settingsChanged));
    }),
  );
  connection.onDidChangeConfiguration(
    taken(DidChangeConfigurationNotification.method, (params: DidChangeConfigurationParams | undefined) => {
      configuration.told(params?.settings);
      settingsChanged();
    }),
  );
  connection.onNotification(
    PLAYER_CHANGED_NOTIFICATION,
    taken(PLAYER_CHANGED_NOTIFICATION, ({ uri, file }: PlayerParams) => {
      workspace.playerChanged(uri, file);
      diagnostics.outdated();
      refreshShown();
    }),
  );
}
