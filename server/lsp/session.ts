import type { Connection, InitializeParams, TextDocuments } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { speak } from '../l10n/translate';
import { type ClientOptions, SOLVED_NOTIFICATION, type SolvedParams } from '../protocol/messages';
import type { Runtime } from '../workspace/pace';
import { createPlayers } from '../workspace/players';
import { createWorkspace, type Workspace } from '../workspace/workspace';
import { type Configuration, createConfiguration } from './configuration';
import { type Diagnostics, type DiagnosticsAnswer, pulledDiagnostics, pulls, pushedDiagnostics } from './diagnostics';
import { openDocuments } from './documents';
import type { Guard } from './guard';
import { type Places, placesIn } from './places';
import { playerReader } from './player-files';
import type { Client } from './request';
import { SentScenes } from './sent-scenes';
import { SentTokens } from './sent-tokens';
import { Typing } from './typing';
import { warmUp } from './warm-up';

/** What is known once the client has introduced itself. */
export interface Session extends Client {
  readonly documents: TextDocuments<TextDocument>;
  readonly configuration: Configuration;
  readonly workspace: Workspace;
  readonly diagnostics: Diagnostics;
  /** Absent for a client that problems are pushed to. */
  readonly answerDiagnostics: DiagnosticsAnswer | undefined;
  /** Places in the open document, if `version` is still its newest. */
  placesOf(uri: string, version: number): Places | undefined;
  /** The client has closed a document: nothing of it is kept. */
  closed(uri: string): void;
}

export function beginSession(
  connection: Connection,
  { capabilities: abilities, initializationOptions }: InitializeParams,
  runtime: Runtime,
  guard: Guard,
): Session {
  const options: ClientOptions = initializationOptions ?? {};
  speak(options.words);
  const scenes = new SentScenes();
  const tokens = new SentTokens();
  const warm = warmUp();
  const typing = new Typing((uri) => diagnostics.rested(uri));
  const documents = openDocuments((document, changes) => typing.changed(document, changes));
  const configuration = createConfiguration(connection, abilities);

  function placesOf(uri: string, version: number): Places | undefined {
    const document = documents.get(uri);
    return document?.version === version ? placesIn(document) : undefined;
  }

  const setup = { connection, abilities, pages: options.rulePages, workspace: () => workspace, typing, placesOf };
  const pulled = pulls(abilities) ? pulledDiagnostics(setup) : undefined;
  const diagnostics = pulled ?? pushedDiagnostics(setup);
  const workspace = createWorkspace(
    runtime,
    configuration.settingsFor,
    {
      drafted: diagnostics.drafted,
      solved(uri, snapshot) {
        diagnostics.solved(uri, snapshot);
        warm(snapshot);
        const told: SolvedParams = { uri, version: snapshot.version };
        void connection.sendNotification(SOLVED_NOTIFICATION, told);
      },
      failed: (uri, error) => guard.fault(`Working out ${uri}`, error),
    },
    createPlayers(playerReader(connection, options)),
  );
  return {
    abilities,
    options,
    scenes,
    tokens,
    documents,
    configuration,
    workspace,
    diagnostics,
    answerDiagnostics: pulled?.answer,
    placesOf,
    closed(uri) {
      typing.ended(uri);
      workspace.close(uri);
      diagnostics.closed(uri);
      scenes.closed(uri);
      tokens.closed(uri);
    },
  };
}
