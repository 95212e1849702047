import * as vscode from 'vscode';
import {
  type BaseLanguageClient,
  CloseAction,
  type CloseHandlerResult,
  ErrorAction,
  type ErrorHandler,
  type ErrorHandlerResult,
} from 'vscode-languageclient';

const AGAIN = vscode.l10n.t('Start It Again');
const RELOAD = vscode.l10n.t('Reload the Window');
const LOG = vscode.l10n.t('Show the Log');

const STOPPED = vscode.l10n.t('The language server has stopped several times within a few minutes and was not started again.');
const FAILED = vscode.l10n.t('The language server could not be started.');
const MEANWHILE = vscode.l10n.t('Until it runs, nothing is checked or worked out; your text is not affected.');

/**
 * Starts the server, and starts it again when its program has died: the library does so and hands it the open documents. Where
 * it gives up, since the program keeps dying, people are told so and can start it themselves, from the message or by a command.
 */
export class Restart implements ErrorHandler {
  private client!: BaseLanguageClient;
  /** When to start again and when to give up. */
  private policy!: ErrorHandler;
  private deaths = 0;

  /** `gaveUp` is told, in words for the preview, that no answer will come any more. */
  constructor(
    private readonly output: vscode.LogOutputChannel,
    private readonly gaveUp: (message: string) => void,
  ) {}

  /** Before the client is first started. */
  register(context: vscode.ExtensionContext, client: BaseLanguageClient): void {
    this.client = client;
    this.policy = client.createDefaultErrorHandler();
    // The library quotes pipes and codes at people, in several messages for each death; of so many at a time VS Code shows none.
    const log = client.error.bind(client);
    client.error = (message, data) => log(message, data, false);
    context.subscriptions.push(vscode.commands.registerCommand('passagework.restart', () => this.again()));
  }

  async start(): Promise<void> {
    const { deaths } = this;
    try {
      await this.client.start();
    } catch (error) {
      // Of a program that died while it was starting, `closed` has heard.
      if (this.deaths > deaths) return;
      this.output.error(FAILED, error);
      this.gaveUp(`${FAILED} ${MEANWHILE} ${vscode.l10n.t('The output channel “Passagework” says why.')}`);
      void this.ask(
        `${FAILED} ${MEANWHILE} ${vscode.l10n.t('Reload the window; if that does not help, the log says why.')}`,
        RELOAD,
      );
    }
  }

  /**
   * Whatever can't be written to a program that is dying, `closed` hears of it next. The library would take the fourth such
   * message for a reason to stop the client, and a client that is being stopped starts nothing again.
   */
  error(): ErrorHandlerResult {
    return { action: ErrorAction.Continue };
  }

  async closed(): Promise<CloseHandlerResult> {
    this.deaths++;
    const result = await this.policy.closed();
    if (result.action === CloseAction.DoNotRestart) {
      this.gaveUp(
        `${STOPPED} ${MEANWHILE} ${vscode.l10n.t('To start it, press F1 and run “Passagework: Restart the Language Server”.')}`,
      );
      void this.ask(`${STOPPED} ${MEANWHILE} ${vscode.l10n.t('If it stops once more, the log says what it was doing.')}`, AGAIN);
    }
    return result;
  }

  /** Starts the server, ending the one that runs. What has died before no longer counts: somebody wants to try. */
  private async again(): Promise<void> {
    this.policy = this.client.createDefaultErrorHandler();
    if (this.client.isRunning()) await this.client.stop();
    await this.start();
  }

  private async ask(message: string, offer: string): Promise<void> {
    const choice = await vscode.window.showErrorMessage(`Passagework: ${message}`, offer, LOG);
    if (choice === AGAIN) await this.again();
    if (choice === RELOAD) await vscode.commands.executeCommand('workbench.action.reloadWindow');
    if (choice === LOG) this.output.show();
  }
}
