import * as vscode from 'vscode';
import type { Converter } from '../converter';
import { reasonOf } from '../reason';

/** Asks the converter while a notification says so; tells the user what went wrong, and then answers nothing. */
export async function asked<P extends object, R>(
  converter: Converter,
  title: string,
  method: string,
  params: P,
): Promise<Exclude<R, { readonly problem: string }> | undefined> {
  const location = vscode.ProgressLocation.Notification;
  try {
    const reply = await vscode.window.withProgress({ location, title }, () => converter.request<P, R & object>(method, params));
    if (!('problem' in reply)) return reply as Exclude<R, { readonly problem: string }>;
    void vscode.window.showErrorMessage(String(reply.problem));
  } catch (error) {
    void vscode.window.showErrorMessage(
      vscode.l10n.t('The conversion failed: {reason}. Nothing was written; please report it with the file.', {
        reason: reasonOf(error),
      }),
    );
  }
  return undefined;
}
