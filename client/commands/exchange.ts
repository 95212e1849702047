import * as vscode from 'vscode';
import { fromBase64, toBase64 } from '../../server/protocol/base64';
import {
  EXPORT_REQUEST,
  type ExportFormat,
  type ExportParams,
  type ExportReply,
  IMPORT_REQUEST,
  type ImportParams,
  type ImportReply,
  LANGUAGE,
} from '../../server/protocol/messages';
import type { Converter } from '../converter';
import { fileName } from '../file-name';
import { asked } from './asked';
import { passageEditor, textColumn } from './passage-editor';
import { saveAs } from './save-as';

interface Format {
  readonly format: ExportFormat;
  readonly label: string;
  readonly detail: string;
  readonly extension: string;
}

const PDF: Format = {
  format: 'pdf',
  label: vscode.l10n.t('Sheet as PDF'),
  detail: vscode.l10n.t('All passages of the file, engraved and fingered, to print'),
  extension: 'pdf',
};
const WEB_PAGE: Format = {
  format: 'html',
  label: vscode.l10n.t('Sheet as a web page'),
  detail: vscode.l10n.t('The same in one HTML file, to read on a screen or send'),
  extension: 'html',
};
const SCORES: readonly Format[] = [
  {
    format: 'musicxml',
    label: 'MusicXML',
    detail: vscode.l10n.t('The passage at the cursor, for a score'),
    extension: 'musicxml',
  },
  {
    format: 'midi',
    label: 'MIDI',
    detail: vscode.l10n.t('What sounds in the passage at the cursor, with its true pitch'),
    extension: 'mid',
  },
  {
    format: 'wav',
    label: 'WAV',
    detail: vscode.l10n.t('What sounds in the passage at the cursor, as a recording'),
    extension: 'wav',
  },
];

/** Scores in, and scores, sounds and printed sheets out. */
export function registerExchange(context: vscode.ExtensionContext, converter: Converter, writesPdf: boolean): void {
  const sheets = writesPdf ? [PDF, WEB_PAGE] : [WEB_PAGE];
  const exportAs = async (formats: readonly Format[], title: string) => {
    const chosen = formats.length > 1 ? await vscode.window.showQuickPick(formats, { title }) : formats[0];
    if (chosen) await exportPassage(converter, chosen);
  };
  context.subscriptions.push(
    vscode.commands.registerCommand('passagework.import', (file?: vscode.Uri) => importScore(converter, file)),
    vscode.commands.registerCommand('passagework.sheet', () => exportAs(sheets, vscode.l10n.t('New printed sheet'))),
    vscode.commands.registerCommand('passagework.export', () => exportAs([...SCORES, ...sheets], vscode.l10n.t('Export as'))),
  );
}

async function exportPassage(converter: Converter, { format, label, extension }: Format): Promise<void> {
  const editor = passageEditor();
  if (!editor) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t('Open the .passage file first: the one being edited is the one that is exported.'),
    );
    return;
  }
  const { document, selection } = editor;
  const settings = vscode.workspace.getConfiguration('passagework', document.uri);
  const params: ExportParams = {
    uri: document.uri.toString(),
    text: document.getText(),
    format,
    line: selection.active.line,
    paper: settings.get('sheet.paper', 'A4'),
    marking: settings.get('staff.fingerings', 'changes'),
    instrument: settings.get('instrument', ''),
    hand: settings.get('hand', ''),
  };
  const reply = await asked<ExportParams, ExportReply>(converter, `${label}…`, EXPORT_REQUEST, params);
  if (!reply) return;
  const name = reply.title.replace(/[\\/:*?"<>|]+/g, ' ').trim() || fileName(document.uri).replace(/\.passage$/, '');
  await saveAs(`${name}.${extension}`, fromBase64(reply.base64), label, document.uri);
}

async function importScore(converter: Converter, given: vscode.Uri | undefined): Promise<void> {
  const filters = { [vscode.l10n.t('Scores')]: ['musicxml', 'mxl', 'xml', 'abc', 'mid', 'midi'] };
  const file = given ?? (await vscode.window.showOpenDialog({ title: vscode.l10n.t('Import a score'), filters }))?.[0];
  if (!file) return;
  const name = fileName(file);
  const base64 = toBase64(await vscode.workspace.fs.readFile(file));
  const ask = (choice: Omit<ImportParams, 'base64'>) =>
    asked<ImportParams, ImportReply>(converter, vscode.l10n.t('Reading {file}…', { file: name }), IMPORT_REQUEST, {
      base64,
      ...choice,
    });
  let choice: Omit<ImportParams, 'base64'> = {};
  let reply = await ask(choice);
  if (reply && reply.tunes.length > 1) {
    const items = reply.tunes.map(({ number, title }) => ({ label: title || `X:${number}`, description: `X:${number}`, number }));
    const chosen = await vscode.window.showQuickPick(items, { title: vscode.l10n.t('Which tune of the file?') });
    if (!chosen) return;
    choice = { tune: chosen.number };
    reply = await ask(choice);
  }
  if (reply && reply.parts.length > 1) {
    const items = reply.parts.map((part, index) => ({ label: part.name, number: index + 1 }));
    const chosen = await vscode.window.showQuickPick(items, { title: vscode.l10n.t('Which part of the score?') });
    if (!chosen) return;
    choice = { ...choice, part: String(chosen.number) };
    reply = await ask(choice);
  }
  if (reply && reply.divided > 0) {
    const items = [
      { divisi: 'both' as const, label: vscode.l10n.t('Both, as double stops') },
      { divisi: 'upper' as const, label: vscode.l10n.t('The upper voice') },
      { divisi: 'lower' as const, label: vscode.l10n.t('The lower voice') },
    ];
    const title = vscode.l10n.t('Several voices share the staff in {count} bars. Which do you play?', { count: reply.divided });
    const chosen = await vscode.window.showQuickPick(items, { title });
    if (!chosen) return;
    reply = await ask({ ...choice, divisi: chosen.divisi });
  }
  if (!reply) return;
  const document = await vscode.workspace.openTextDocument({ language: LANGUAGE, content: reply.text });
  await vscode.window.showTextDocument(document, textColumn());
  if (reply.lost.length > 0) await report(vscode.l10n.t('Import report: {file}', { file: name }), reply);
}

/** A list to keep open below the text: beside it stands the preview. */
async function report(
  title: string,
  { lost, places }: { readonly lost: readonly string[]; readonly places: readonly string[] },
): Promise<void> {
  const list = (lines: readonly string[]) => lines.map((line) => `- ${line}`).join('\n');
  const content = `# ${title}\n\n${list(lost)}\n\n## ${vscode.l10n.t('Bar by bar')}\n\n${list(places)}\n`;
  const document = await vscode.workspace.openTextDocument({ language: 'markdown', content });
  await vscode.commands.executeCommand('workbench.action.newGroupBelow');
  await vscode.window.showTextDocument(document);
  await vscode.commands.executeCommand('workbench.action.focusAboveGroup');
}
