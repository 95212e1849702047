import { t } from '../server/l10n/translate';
import { readComment } from './check-comment';
import { faultProblem, readEntry } from './entry';
import { splitText } from './line';
import { nearest } from './nearest';
import { PLAYER_KEY_NAMES, type PlayerKey, playerKey } from './player-keys';
import { problem, quoted, type Report, write } from './problems';
import type { Comment, SyntaxProblem, Word } from './tree';
import { readValue } from './values/read-value';
import { StringName, valueTokens } from './values/value-tokens';
import type { ValueNode, ValueNodes } from './values/value-tree';

/** One line of a player file; spans count from its start. */
export type PlayerLineNode = (BlankPlayerLine | PlayerEntry | AttemptsLine) & {
  readonly problems: readonly SyntaxProblem[];
  readonly comment?: Comment;
};

/** Nothing that can be read, apart from a comment. */
export interface BlankPlayerLine {
  readonly kind: 'blank';
}

/** `hand: small`. */
export interface PlayerEntry {
  readonly kind: 'entry';
  readonly key: Word;
  readonly value: Word;
  /** The key in its usual spelling; absent if player files have no such line. */
  readonly name?: PlayerKey;
  readonly parts?: ValueNode;
}

/** `III 1/5: 4 of 10`. */
export interface AttemptsLine {
  readonly kind: 'attempts';
  readonly key: Word;
  readonly value: Word;
  readonly tried?: ValueNodes['tried'];
  readonly counts?: ValueNodes['counts'];
}

/** Reads one line of a player file, without its line break. */
export function readPlayerLine(line: string): PlayerLineNode {
  const problems: SyntaxProblem[] = [];
  const report: Report = (found) => void problems.push(found);
  const [whole, remark] = splitText(line, 0);
  const rest = { problems, ...(remark && { comment: readComment(remark) }) };
  if (whole.text === '') return { kind: 'blank', ...rest };
  const colon = whole.text.indexOf(':');
  if (colon < 0) {
    report(problem('player-line', whole, missingColon(whole.text), withColon(whole.text).map(write)));
    return { kind: 'blank', ...rest };
  }
  const before = whole.text.slice(0, colon).trimEnd();
  const key = { start: whole.start, end: whole.start + before.length, text: before };
  const [value] = splitText(line.slice(0, whole.end), whole.start + colon + 1);
  if (isString(before)) return { kind: 'attempts', key, value, ...readAttempts(key, value, report), ...rest };
  const row = playerKey(before);
  if (!row) {
    const why = t('A player file has no line {key}. Write {keys}, or attempts as in III 1/5: 4 of 10; comments go after //.', {
      key: quoted(before),
      keys: PLAYER_KEY_NAMES.join(', '),
    });
    const place = key.end > key.start ? key : whole;
    report(problem('player-key', place, why, nearest(before, PLAYER_KEY_NAMES).map(write)));
    return { kind: 'entry', key, value, ...rest };
  }
  const parts = readEntry(row, key, value, 'player-value', report);
  return { kind: 'entry', key, value, name: row.key, ...(parts && { parts }), ...rest };
}

/** Does a line that begins so tell of attempts? */
function isString(text: string): boolean {
  return valueTokens(text)[0]?.tokenType === StringName;
}

function readAttempts(key: Word, value: Word, report: Report): Pick<AttemptsLine, 'tried' | 'counts'> {
  const tried = readValue('tried', key);
  if ('faults' in tried) {
    for (const fault of tried.faults)
      report(faultProblem('player-attempt', t("What was tried can't be read: {why}.", { why: fault.why }), fault));
    return {};
  }
  if (value.text === '') {
    const why = t('The result is missing: write how many came out clean, of how many, as in 4 of 10.');
    report(problem('player-attempt', key, why));
    return { tried: tried.value };
  }
  const counts = readValue('counts', value);
  if ('value' in counts) return { tried: tried.value, counts: counts.value };
  for (const fault of counts.faults)
    report(faultProblem('player-attempt', t("How the attempts went can't be read: {why}.", { why: fault.why }), fault));
  return { tried: tried.value };
}

function missingColon(text: string): string {
  return t(
    '{text} is not a line of a player file: it has no colon. Write what it is about, a colon, and the value, as in hand: medium or III 1/5: 4 of 10; comments go after //.',
    { text: quoted(text) },
  );
}

/** The same with its colon, where the first words leave no doubt, or as a remark. */
function withColon(text: string): readonly string[] {
  const key = PLAYER_KEY_NAMES.find((name) => text.toLowerCase().startsWith(`${name} `));
  if (key) return [`${key}: ${text.slice(key.length).trim()}`];
  const [, tried = '', counts] = /^(.*\S)\s+(\d+\s+of\s+\d+)$/.exec(text) ?? [];
  return isString(tried) ? [`${tried}: ${counts}`] : [`// ${text}`];
}
