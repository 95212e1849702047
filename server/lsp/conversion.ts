import type { MessageConnection } from 'vscode-jsonrpc';
import { version } from '../../package.json';
import { FORMATS } from '../exchange/formats';
import { importScore } from '../exchange/import-score';
import { grouped, groupText, lossText } from '../exchange/score/losses';
import { sheetHtml } from '../exchange/sheet/html';
import { buildSheet, type Sheet } from '../exchange/sheet/sheet';
import { Unreadable } from '../exchange/unreadable';
import { TooLong } from '../exchange/wav';
import { type Bundle, later, speak, t } from '../l10n/translate';
import { UnreadableAudio } from '../listening/audio/unreadable-audio';
import { KINDS } from '../practice/kinds';
import { practice } from '../practice/practice';
import { fromBase64, toBase64 } from '../protocol/base64';
import {
  EXERCISES_REQUEST,
  EXPORT_REQUEST,
  type ExercisesParams,
  type ExercisesReply,
  type ExportParams,
  type ExportReply,
  IMPORT_REQUEST,
  type ImportParams,
  type ImportReply,
  LISTEN_REQUEST,
  type ListenParams,
  type ListenReply,
  READ_PLAYER_REQUEST,
  READ_RECORDING_REQUEST,
  type ReadRecordingReply,
} from '../protocol/messages';
import { sealed } from '../scene/page/sealed';
import { scenePassage } from '../scene/scene';
import { createPlayers, type Players } from '../workspace/players';
import { readSettings } from '../workspace/settings';
import { snapshot } from '../workspace/snapshot';
import { listened } from './listening';
import { checkParams } from './params';
import { NO_NOTES, passageAt, withNotes } from './passage-at';

/** Only programs under Node have one. */
export type WritePdf = (sheet: Sheet) => Promise<Uint8Array>;

/** Every request brings the reader's words, if there are any: it is the only one that this program answers. */
interface Worded {
  readonly words?: Bundle;
}

/** Answers requests for other formats on a connection: a program apart from the language server, started when one is wanted. */
export function serveConversions(connection: MessageConnection, pdf?: WritePdf): void {
  const players = createPlayers((uri, file) => connection.sendRequest(READ_PLAYER_REQUEST, { uri, file }));
  const onRequest = (method: string, work: (params: never) => Promise<object>) =>
    connection.onRequest(method, (params: unknown) => {
      checkParams(method, params);
      speak((params as Worded).words);
      return answer(() => work(params as never));
    });
  onRequest(EXPORT_REQUEST, (params: ExportParams): Promise<ExportReply> => exported(params, players, pdf));
  onRequest(IMPORT_REQUEST, async (params: ImportParams): Promise<ImportReply> => imported(params));
  onRequest(EXERCISES_REQUEST, (params: ExercisesParams): Promise<ExercisesReply> => exercises(params, players));
  onRequest(LISTEN_REQUEST, (params: ListenParams): Promise<ListenReply> => listened(params, players, blocksFrom(connection)));
  connection.listen();
}

async function* blocksFrom(connection: MessageConnection): AsyncGenerator<Uint8Array> {
  for (;;) {
    const { base64 } = await connection.sendRequest<ReadRecordingReply>(READ_RECORDING_REQUEST, {});
    if (base64 === '') return;
    yield fromBase64(base64);
  }
}

/** What a user can do something about is an answer; anything else is a fault and told as such. */
async function answer<R>(work: () => Promise<R>): Promise<R | { readonly problem: string }> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof Unreadable || error instanceof TooLong || error instanceof UnreadableAudio)
      return { problem: error.message };
    throw error;
  }
}

async function exported(params: ExportParams, players: Players, pdf: WritePdf | undefined): Promise<ExportReply> {
  const { uri, text, format, line, paper, marking } = params;
  const overrides = { players: await players.lookup(uri, text) };
  const known = snapshot(text, 0, readSettings(params), undefined, overrides);
  const solutions = withNotes(known);
  const meant = passageAt(solutions, line);
  if (!meant) return { problem: t(NO_NOTES) };
  const work = known.resolved.title;
  if (format !== 'html' && format !== 'pdf')
    return { base64: toBase64(FORMATS[format].write(meant, { work, version })), title: meant.passage.title };
  const sheet = buildSheet(
    solutions.map((solution) => scenePassage(solution)),
    { paper, marking, diagrams: 'harmonics', version, ...(work && { title: work }) },
  );
  if (format === 'pdf') return pdf ? { base64: toBase64(await pdf(sheet)), title: work } : { problem: t(NO_PDF) };
  return { base64: toBase64(new TextEncoder().encode(await sealed(sheetHtml(sheet)))), title: work };
}

const NO_PDF = later(
  'VS Code in the browser writes no PDF. Save the sheet as a web page, open it and print it from there as PDF.',
);

async function exercises(params: ExercisesParams, players: Players): Promise<ExercisesReply> {
  const { uri, text, file, line, kinds } = params;
  const settings = readSettings(params);
  const overrides = { players: await players.lookup(uri, text) };
  const known = snapshot(text, 0, settings, undefined, overrides);
  const meant = passageAt(withNotes(known), line);
  if (!meant) return { problem: t(NO_NOTES) };
  const { resolved, solver } = known;
  const wanted = kinds ? KINDS.filter(({ name }) => kinds.includes(name)) : KINDS;
  const request = { resolved, solver, solutions: [meant], kinds: wanted, chance: settings.safeChance, overrides };
  const made = practice(file === undefined ? request : { ...request, file });
  if (made.text === '') {
    const needs = wanted.map(({ label, needs }) => `${t(label)}: ${t(needs)}`).join('; ');
    return {
      problem: t('There is nothing to practise in this passage yet. What each kind of exercise needs: {needs}.', { needs }),
    };
  }
  return {
    text: made.text,
    kinds: made.made.flatMap(({ kind: { name, label, meaning }, count }) =>
      count > 0 ? [{ name, label: t(label), meaning: t(meaning) }] : [],
    ),
  };
}

function imported({ base64, ...choice }: ImportParams): ImportReply {
  const read = importScore(fromBase64(base64), choice);
  return {
    text: read.text,
    part: read.part,
    parts: read.parts,
    tunes: read.tunes,
    divided: read.divided,
    lost: grouped(read.losses).map(groupText),
    places: read.losses.map(lossText),
  };
}
