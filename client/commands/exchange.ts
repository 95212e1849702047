import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  EXPORT_REQUEST,
  type ExportFormat,
  type ExportParams,
  type ExportReply,
  IMPORT_REQUEST,
  type ImportParams,
  type ImportReply,
  type Offers,
} from '../../server/protocol/messages';
import { LANGUAGE } from '../language-client';
import { fromBase64, saveAs, toBase64 } from './save-as';

interface Format {
  readonly label: string;
  readonly detail: string;
  readonly extension: string;
}

const FORMATS: Readonly<Record<ExportFormat, Format>> = {
  musicxml: { label: 'MusicXML', detail: 'The notes with harmonics, strings and fingerings, for a score', extension: 'musicxml' },
  midi: { label: 'MIDI', detail: 'What sounds, with its true pitch', extension: 'mid' },
  wav: { label: 'WAV', detail: 'What sounds, as a recording', extension: 'wav' },
  html: { label: 'Printed sheet (HTML)', detail: 'One file with staff and fingerings, to print or send', extension: 'html' },
  pdf: { label: 'Printed sheet (PDF)', detail: 'Pages with staff and fingerings', extension: 'pdf' },
};
const SHEETS: readonly ExportFormat[] = ['html', 'pdf'];

/** Import, export and printed sheets, as far as this server offers them. */
export function registerExchange(context: vscode.ExtensionContext, client: BaseLanguageClient, offers: Offers): void {
  const sheets = offers.exports.filter((format) => SHEETS.includes(format));
  const enable = (name: string, on: boolean) => vscode.commands.executeCommand('setContext', `passagework.${name}`, on);
  void enable('canExport', offers.exports.length > 0);
  void enable('canImport', offers.imports);
  void enable('canPrint', sheets.length > 0);
  context.subscriptions.push(
    vscode.commands.registerCommand('passagework.export', () => exportPassage(client, offers.exports, 'Export this passage as')),
    vscode.commands.registerCommand('passagework.sheet', () => exportPassage(client, sheets, 'Make a printed sheet as')),
    vscode.commands.registerCommand('passagework.import', (file?: vscode.Uri) => importScore(client, file)),
  );
}

async function exportPassage(client: BaseLanguageClient, formats: readonly ExportFormat[], title: string): Promise<void> {
  const document = vscode.window.activeTextEditor?.document;
  if (document?.languageId !== LANGUAGE) {
    void vscode.window.showInformationMessage('Open the .passage file first: the one being edited is the one that is exported.');
    return;
  }
  const items = formats.map((format) => ({ format, ...FORMATS[format] }));
  const chosen = items.length === 1 ? items[0] : await vscode.window.showQuickPick(items, { title });
  if (!chosen) return;
  const params: ExportParams = { uri: document.uri.toString(), format: chosen.format };
  const reply: ExportReply = await working(`${chosen.label}…`, client.sendRequest(EXPORT_REQUEST, params));
  if ('problem' in reply) {
    void vscode.window.showErrorMessage(reply.problem);
    return;
  }
  if (reply.lost.length) await report(`What ${chosen.label} can't carry`, reply.lost);
  const name = document.uri.path.slice(document.uri.path.lastIndexOf('/') + 1).replace(/\.passage$/, '');
  await saveAs(`${name}.${chosen.extension}`, fromBase64(reply.base64), chosen.label, document.uri);
}

async function importScore(client: BaseLanguageClient, given: vscode.Uri | undefined): Promise<void> {
  const file =
    given ??
    (await vscode.window.showOpenDialog({ title: 'Import a score', filters: { MusicXML: ['musicxml', 'mxl', 'xml'] } }))?.[0];
  if (!file) return;
  const name = file.path.slice(file.path.lastIndexOf('/') + 1);
  const base64 = toBase64(await vscode.workspace.fs.readFile(file));
  const ask = (params: ImportParams): Promise<ImportReply> =>
    working(`Reading ${name}…`, client.sendRequest(IMPORT_REQUEST, params));
  let reply = await ask({ name, base64 });
  if ('parts' in reply) {
    const items = reply.parts.map((part) => ({ label: part.name, part: part.id }));
    const chosen = await vscode.window.showQuickPick(items, { title: 'Which part?' });
    if (!chosen) return;
    reply = await ask({ name, base64, part: chosen.part });
  }
  if ('problem' in reply) {
    void vscode.window.showErrorMessage(reply.problem);
    return;
  }
  if (!('text' in reply)) return;
  if (reply.lost.length) await report(`What ${name} has that a passage can't hold`, reply.lost);
  const document = await vscode.workspace.openTextDocument({ language: LANGUAGE, content: reply.text });
  await vscode.window.showTextDocument(document);
}

function working<T>(title: string, task: Promise<T>): Promise<T> {
  const location = vscode.ProgressLocation.Notification;
  return Promise.resolve(vscode.window.withProgress({ location, title }, () => task));
}

/** A list the user can keep open beside the music. */
async function report(title: string, lines: readonly string[]): Promise<void> {
  const content = `# ${title}\n\n${lines.map((line) => `- ${line}`).join('\n')}\n`;
  const document = await vscode.workspace.openTextDocument({ language: 'markdown', content });
  await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true, preview: true });
}
