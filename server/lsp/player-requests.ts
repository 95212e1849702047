import type { CodeAction, CodeActionParams, CodeLens, CompletionList, Hover, Position, TextEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { formatPlayer } from '../../grammar/format';
import { playerKey } from '../../grammar/player-keys';
import type { Edit } from '../../grammar/tree';
import { playerCompletions } from '../features/player/player-completion';
import { playerHover } from '../features/player/player-hover';
import { attemptLenses, attemptOn } from '../features/player/player-lens';
import { playerProblems } from '../features/player/player-problems';
import { NESTED, REACH } from '../hand/choice';
import { fingerPairs } from '../hand/hands';
import { buildInstrument } from '../instrument/build';
import { readTried } from '../player/attempt-words';
import { logAttempt } from '../player/log-attempt';
import { logTake, unlogTake } from '../player/log-take';
import { type PlayerFile, playerFamily } from '../player/player-file';
import { readPlayer } from '../player/read-player';
import { setValue } from '../player/set-value';
import {
  ATTEMPTS_REQUEST,
  type AttemptsReply,
  COMMANDS,
  type EditPlayerParams,
  type EditPlayerReply,
  type LogParams,
  type MeasureParams,
  type MeasureReply,
} from '../protocol/messages';
import { type Places, placesIn } from './places';
import type { Client } from './request';
import * as to from './to-protocol';

const known = new WeakMap<TextDocument, { readonly version: number; readonly file: PlayerFile }>();

/** An open player file as it now reads. */
export function playerOf(document: TextDocument): PlayerFile {
  const before = known.get(document);
  if (before?.version === document.version) return before.file;
  const file = readPlayer(document.getText());
  known.set(document, { version: document.version, file });
  return file;
}

type Answer = (params: never, file: PlayerFile, places: Places, client: Client) => unknown;

/** Answers a question about an open player file; null for what is asked of passages only. */
export function playerAnswer(method: string, params: unknown, document: TextDocument, client: Client): unknown {
  const answer = ANSWERS[method];
  return answer ? answer(params as never, playerOf(document), placesIn(document), client) : null;
}

interface At {
  readonly position: Position;
}

const ANSWERS: Readonly<Record<string, Answer>> = {
  'textDocument/hover': ({ position }: At, file, places, client): Hover | null => {
    const found = playerHover(file, places.offset(position));
    return found ? to.hover(found, places, client) : null;
  },
  'textDocument/completion': ({ position }: At, file, places, client): CompletionList =>
    to.completionList(playerCompletions(file, places.offset(position)), places, client),
  'textDocument/codeAction': ({ range, context }: CodeActionParams, file, places, client): CodeAction[] => {
    if (to.wantedKinds(context)?.includes('fix') === false) return [];
    const { start, end } = places.span(range);
    return playerProblems(file)
      .filter(({ span }) => span.start <= end && start <= span.end)
      .flatMap((problem) =>
        problem.fixes.map(({ title, edits, certainty }) =>
          to.codeAction({ title, edits, kind: 'fix', problem, ...(certainty && { preferred: true }) }, places, client),
        ),
      );
  },
  'textDocument/codeLens': (_: unknown, file, places, { options }): CodeLens[] =>
    options.commands
      ? attemptLenses(file).map(({ span, title, log }) => {
          const params: LogParams = { uri: places.uri, ...log };
          return { range: places.range(span), command: { title, command: COMMANDS.logAttempt, arguments: [params] } };
        })
      : [],
  'textDocument/formatting': (_: unknown, { text }, places): TextEdit[] => formatPlayer(text).map((edit) => places.edit(edit)),
  [ATTEMPTS_REQUEST]: ({ position }: At, file, places): AttemptsReply => {
    const attempt = attemptOn(file, places.offset(position));
    return attempt === undefined ? null : { attempts: [attempt] };
  },
};

/** What measuring a hand needs to know of a player. */
export function measured({ text }: MeasureParams): MeasureReply {
  const { lines, values } = readPlayer(text);
  const { size } = values.instrument ?? {};
  const family = playerFamily(values);
  const { name, length } = buildInstrument({ family, ...(size && { size }), tuning: 'fifths', a4: 440 });
  const hand = lines.findLast(({ name }) => name === 'hand')?.value?.text ?? '';
  const reaches = values.hand?.kind === 'measured' ? values.hand.most : {};
  return { instrument: name, length, pairs: fingerPairs(family), hand, reaches, ...REACH, nested: NESTED };
}

/** The edit of a player's text that a client asks for; null where there is no such line or attempt. */
export function playerEdit({ text, change }: EditPlayerParams, placesOf: (text: string) => Places): EditPlayerReply {
  const edit = (made: ReturnType<typeof setValue>) => to.pinEdit(made, placesOf(text));
  if (change.kind === 'recording') {
    const after = withRecording(text, change);
    return after === undefined ? null : edit(between(text, after));
  }
  const row = change.kind === 'value' ? playerKey(change.key) : undefined;
  if (change.kind === 'value') return row ? edit(setValue(text, row.key, change.value)) : null;
  const tried = readTried(change.attempt);
  return 'value' in tried ? edit(logAttempt(text, tried.value, change.clean)) : null;
}

function withRecording(
  text: string,
  { fingerprint, counts, back }: Extract<EditPlayerParams['change'], { kind: 'recording' }>,
): string | undefined {
  if (back) return unlogTake(text, fingerprint);
  const takes = counts.flatMap(({ attempt, clean, tried: count }) => {
    const tried = readTried(attempt);
    return 'value' in tried ? [{ tried: tried.value, attempts: { clean, tried: count } }] : [];
  });
  return logTake(text, fingerprint, takes);
}

/** The edit that makes one text of another: the lines in which they differ. */
function between(before: string, after: string): Edit {
  let start = 0;
  while (start < before.length && before[start] === after[start]) start++;
  start = before.slice(0, start).lastIndexOf('\n') + 1;
  let same = 0;
  const most = Math.min(before.length, after.length) - start;
  while (same < most && before.at(-1 - same) === after.at(-1 - same)) same++;
  return { span: { start, end: before.length - same }, text: after.slice(start, after.length - same) };
}
