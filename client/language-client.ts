import * as vscode from 'vscode';
import { type ErrorHandler, type LanguageClientOptions, type Middleware, RevealOutputChannelOn } from 'vscode-languageclient';
import { type ClientOptions, COMMANDS, LANGUAGE, PLAYER_LANGUAGE } from '../server/protocol/messages';

/** What the two hosts' language clients have in common. Any scheme: a file need not be on this machine's disk. */
export function clientOptions(
  context: vscode.ExtensionContext,
  output: vscode.LogOutputChannel,
  errorHandler: ErrorHandler,
  middleware: Middleware,
): LanguageClientOptions {
  const rulePages = vscode.Uri.joinPath(context.extensionUri, 'server', 'rules').toString();
  const initializationOptions: ClientOptions = {
    commands: true,
    players: true,
    rulePages,
    ...(vscode.l10n.bundle && { words: vscode.l10n.bundle }),
  };
  return {
    documentSelector: [{ language: LANGUAGE }, { language: PLAYER_LANGUAGE }],
    initializationOptions,
    outputChannel: output,
    revealOutputChannelOn: RevealOutputChannelOn.Never,
    errorHandler,
    middleware,
    // `Restart` says what people must know.
    initializationFailedHandler: () => false,
    // The string in a hover is a picture, its alternatives are links that write them into the text.
    markdown: { isTrusted: { enabledCommands: Object.values(COMMANDS) }, supportHtml: true },
  };
}
