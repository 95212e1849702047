import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { EDIT_PLAYER_REQUEST, type EditPlayerParams, type EditPlayerReply } from '../../server/protocol/messages';

/** Edits wait for each other: each is worked out on the text that the one before left. */
let before: Promise<unknown> = Promise.resolve();

/** A change that has been made. */
export interface PlayerEdit {
  /** The line as it reads now. */
  readonly line: string;
  /** Puts back what stood there before; false where somebody has written there since. */
  undo(): Promise<boolean>;
}

type Agreed = (lines: readonly string[]) => Promise<boolean>;

/**
 * Changes a player file as one step to undo, and saves it where it was saved before: it need not be on the screen. Undefined where
 * the change can't be made, is not needed, or is not agreed to.
 *
 * @param agreed asked first with the lines that go (`- `) and come (`+ `); without it, the change is made at once
 */
export function editPlayer(
  client: BaseLanguageClient,
  uri: vscode.Uri,
  change: EditPlayerParams['change'],
  agreed?: Agreed,
): Promise<PlayerEdit | undefined> {
  return inTurn(() => write(client, uri, change, agreed));
}

function inTurn<T>(work: () => Promise<T>): Promise<T> {
  const edit = before.then(work);
  before = edit.catch(() => undefined);
  return edit;
}

async function write(
  client: BaseLanguageClient,
  uri: vscode.Uri,
  change: EditPlayerParams['change'],
  agreed: Agreed | undefined,
): Promise<PlayerEdit | undefined> {
  const document = await vscode.workspace.openTextDocument(uri);
  const { version } = document;
  const params: EditPlayerParams = { text: document.getText(), change };
  const reply: EditPlayerReply = await client.sendRequest(EDIT_PLAYER_REQUEST, params);
  if (!reply) return undefined;
  if (agreed && document.version === version && !(await agreed(changedLines(document, reply)))) return undefined;
  // Typed into in the meantime: the places no longer hold.
  if (document.version !== version) return write(client, uri, change, agreed);
  const range = new vscode.Range(reply.start.line, reply.start.character, reply.end.line, reply.end.character);
  const [start, old] = [document.offsetAt(range.start), document.getText(range)];
  if (!(await replace(document, range, reply.text))) return undefined;
  const written = () => new vscode.Range(document.positionAt(start), document.positionAt(start + reply.text.length));
  // A new line begins with the break before it.
  const at = document.positionAt(start + reply.text.trimEnd().length);
  return {
    line: document.lineAt(at.line).text.trim(),
    undo: () => inTurn(async () => document.getText(written()) === reply.text && (await replace(document, written(), old))),
  };
}

async function replace(document: vscode.TextDocument, range: vscode.Range, text: string): Promise<boolean> {
  const saved = !document.isDirty && !document.isUntitled;
  const edit = new vscode.WorkspaceEdit();
  edit.replace(document.uri, range, text);
  if (!(await vscode.workspace.applyEdit(edit))) return false;
  if (saved) await document.save();
  return true;
}

/** What an edit does to whole lines. */
function changedLines(document: vscode.TextDocument, { start, end, text }: NonNullable<EditPlayerReply>): readonly string[] {
  const last = document.lineAt(end.line).text;
  const old = document.getText(new vscode.Range(start.line, 0, end.line, last.length)).split(/\r?\n/);
  const first = document.lineAt(start.line).text;
  const fresh = (first.slice(0, start.character) + text + last.slice(end.character)).split(/\r?\n/);
  return [
    ...old.filter((line) => !fresh.includes(line)).map((line) => `- ${line}`),
    ...fresh.filter((line) => !old.includes(line)).map((line) => `+ ${line}`),
  ];
}
