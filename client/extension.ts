import * as vscode from 'vscode';
import type { BaseLanguageClient, ErrorHandler, Middleware } from 'vscode-languageclient';
import { speak } from '../server/l10n/translate';
import { SOLVED_NOTIFICATION, type SolvedParams } from '../server/protocol/messages';
import { registerAttempts } from './commands/attempts';
import { registerEditing } from './commands/editing';
import { registerExchange } from './commands/exchange';
import { registerExercises } from './commands/exercises';
import { registerListening } from './commands/listening';
import { registerPassageFiles } from './commands/passage-files';
import { Converter, type RunningConverter } from './converter';
import { PlayerFiles } from './players';
import { registerMeasure } from './preview/measure';
import { registerPreviews } from './preview/previews';
import { Projects } from './projects';
import type { Recording } from './recording';
import { Restart } from './restart';
import { Scenes } from './scenes';
import { registerStatus } from './status';

/** What differs from host to host: how the server's programs are started. */
export interface Runtime {
  createClient(output: vscode.LogOutputChannel, errorHandler: ErrorHandler, middleware: Middleware): BaseLanguageClient;
  startConverter(): Promise<RunningConverter>;
  /** Whether the converter can write PDF. */
  readonly writesPdf: boolean;
  openRecording(uri: vscode.Uri): Promise<Recording>;
}

export interface Extension {
  stop(): Promise<void>;
}

/** Everything the two hosts share: wires the client's parts to one running server. */
export async function startExtension(context: vscode.ExtensionContext, runtime: Runtime): Promise<Extension> {
  speak(vscode.l10n.bundle);
  const output = vscode.window.createOutputChannel('Passagework', { log: true });
  const restart = new Restart(output, (message) => scenes.fail(message));
  const projects = new Projects();
  const client = runtime.createClient(output, restart, projects.middleware);
  projects.watch(client);
  const scenes = new Scenes(client);
  restart.register(context, client);
  client.onNotification(SOLVED_NOTIFICATION, ({ uri, version }: SolvedParams) => scenes.solved(uri, version));
  const players = new PlayerFiles(client);
  context.subscriptions.push(output, scenes, players, projects);

  registerPassageFiles(context);
  registerEditing(context, client);
  registerAttempts(context, client);
  const converter = new Converter(
    () => runtime.startConverter(),
    (params) => players.read(params),
    (uri) => projects.textFor(vscode.Uri.parse(uri)),
    vscode.l10n.bundle,
  );
  registerExchange(context, converter, runtime.writesPdf);
  registerExercises(context, converter);
  const previews = registerPreviews(context, { client, scenes, output });
  registerListening(context, {
    converter,
    openRecording: (uri) => runtime.openRecording(uri),
    openPreview: (uri) => previews.open(uri),
  });
  registerMeasure(context, { client, players, output });
  registerStatus(context, scenes);
  await restart.start();
  return { stop: () => (client.isRunning() ? client.stop() : Promise.resolve()) };
}
