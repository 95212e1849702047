import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { reasonOf } from './reason';

/** The text has changed before the answer was there (Language Server Protocol 3.17, `ContentModified`). */
const CONTENT_MODIFIED = -32801;
/** How long a message stays in the status bar, ms. */
const SHOWN = 5000;

/** What people are told when no answer comes: `what` is not done, and what they should do `again`. */
export interface Unanswered {
  readonly what: string;
  readonly again: string;
}

/** Asks the server for somebody who waits for it. Undefined where no answer comes; that is said then, and never thrown. */
export async function ask<R>(
  client: BaseLanguageClient,
  method: string,
  params: object,
  { what, again }: Unanswered,
): Promise<R | undefined> {
  try {
    return await client.sendRequest<R>(method, params);
  } catch (error) {
    if ((error as { readonly code?: unknown } | undefined)?.code === CONTENT_MODIFIED) changedSince(again);
    else {
      client.debug(`${method}: ${reasonOf(error)}`);
      void vscode.window.showWarningMessage(
        vscode.l10n.t('{what}: the language server does not answer. It restarts by itself if it has stopped; then {again}.', {
          what,
          again,
        }),
      );
    }
    return undefined;
  }
}

/** The text is not the one any more that was asked about. */
export function changedSince(again: string): void {
  vscode.window.setStatusBarMessage(vscode.l10n.t('The passage has changed since: {again}.', { again }), SHOWN);
}
