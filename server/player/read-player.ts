import { splitText } from '../../grammar/line';
import { nearest } from '../../grammar/nearest';
import { quoted } from '../../grammar/problems';
import type { Span, Word } from '../../grammar/tree';
import type { Attempts } from '../hand/attempts';
import { lifted, replacement } from '../passage/problem';
import { readTried, triedKey } from './attempt-words';
import { beyondReach } from './comfort';
import { keyWord, type PlayerCode, type PlayerFile, type PlayerLine, type PlayerProblem, playerFamily } from './player-file';
import { isPlayerKey, PLAYER_KEY_NAMES, PLAYER_KEYS, type PlayerKey, type PlayerValues } from './player-keys';

/** More problems than this in one file help nobody. */
const MOST_PROBLEMS = 100;
/** More attempts than a life has room for are a slip of the pen. */
export const MOST_ATTEMPTS = 1_000_000;

const LINE = /([^\r\n]*)(?:\r\n|\r|\n|$)/y;
const ATTEMPT = /^(?:I{1,3}|IV)(?:\s|$)/i;
const COUNT = /^(\d+)\s+(?:of|\/)\s+(\d+)$|^(\d+)\s*\/\s*(\d+)$/;

/**
 * Reads a player file. Any text gives a player: what can't be read is reported at its place and left out, the rest
 * counts. Never throws.
 */
export function readPlayer(text: string): PlayerFile {
  const problems: PlayerProblem[] = [];
  const tell = (
    code: PlayerCode,
    span: Span,
    message: string,
    near: readonly string[] = [],
    severity: PlayerProblem['severity'] = 'error',
  ) => {
    if (problems.length < MOST_PROBLEMS)
      problems.push({ code, severity, span, message, cures: near.map((word) => replacement(span, word)) });
  };
  const lines = linesOf(text).map((span) => lineOf(text, span, tell));
  const values: { -readonly [K in PlayerKey]?: PlayerValues[K] } = {};
  const seen = new Map<PlayerKey, Word>();
  // The instrument first: it says which fingers have a reach.
  for (const only of [true, false]) {
    for (const { key, value } of lines) {
      const word = key && keyWord(key.text);
      if (!key || !value || word === undefined || !isPlayerKey(word) || (word === 'instrument') !== only) continue;
      const before = seen.get(word);
      if (before)
        tell(
          'player-twice',
          before,
          `This ${word} is set again further down, which holds instead. Take one of them out.`,
          [],
          'warning',
        );
      seen.set(word, key);
      Object.assign(values, readValue(word, key, value, values, tell));
    }
  }
  const limit = seen.get('comfort');
  const why = limit && values.comfort && beyondReach(values.comfort, values.hand, playerFamily(values));
  if (limit && why)
    tell('player-value', limit, `${why} What is comfortable can't lie beyond it; measure both again.`, [], 'warning');
  problems.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  return { text, lines, values, experience: experienceOf(lines), problems };
}

type Tell = (
  code: PlayerCode,
  span: Span,
  message: string,
  near?: readonly string[],
  severity?: PlayerProblem['severity'],
) => void;

/** Where the lines of a text begin and end, breaks apart. */
function linesOf(text: string): readonly Span[] {
  const spans: Span[] = [];
  LINE.lastIndex = 0;
  for (;;) {
    const start = LINE.lastIndex;
    const found = LINE.exec(text);
    spans.push({ start, end: start + (found?.[1]?.length ?? 0) });
    if (!found || LINE.lastIndex === start || LINE.lastIndex >= text.length) {
      // A break at the very end begins one more line, an empty one.
      if (found && LINE.lastIndex > start && /[\r\n]$/.test(found[0])) spans.push({ start: text.length, end: text.length });
      return spans;
    }
  }
}

function lineOf(text: string, span: Span, tell: Tell): PlayerLine {
  const line = text.slice(span.start, span.end);
  const at = ({ start, end, text: words }: Word): Word => ({ ...lifted({ start, end }, span.start), text: words });
  const [whole, comment] = splitText(line, 0);
  const rest = { ...span, ...(comment && { comment: at(comment) }) };
  if (whole.text === '') return rest;
  const colon = whole.text.indexOf(':');
  const before = colon < 0 ? whole.text : whole.text.slice(0, colon).trimEnd();
  const key = at({ start: whole.start, end: whole.start + before.length, text: before });
  if (colon < 0) {
    tell('player-line', at(whole), `${missingColon(whole.text)}`, colonCures(whole.text));
    return rest;
  }
  const [value] = splitText(line.slice(0, whole.end), whole.start + colon + 1);
  const read = { ...rest, key, value: at(value) };
  if (ATTEMPT.test(before)) return { ...read, ...attemptOf(key, at(value), tell) };
  const word = keyWord(before);
  if (!isPlayerKey(word)) {
    const why = `A player file has no line ${quoted(before)}. Write ${PLAYER_KEY_NAMES.join(', ')}, or attempts as in III 1/5: 4 of 10; what is only for reading goes behind //.`;
    tell('player-key', key, why, nearest(word, PLAYER_KEY_NAMES));
  }
  return read;
}

function missingColon(text: string): string {
  return `${quoted(text)} is no line of a player file: it has no colon. Write what it is about, a colon, and the value, as in hand: medium or III 1/5: 4 of 10; what is only for reading goes behind //.`;
}

/** The same with its colon, where the first words leave no doubt, or as a remark. */
function colonCures(text: string): readonly string[] {
  const key = PLAYER_KEY_NAMES.find((name) => text.toLowerCase().startsWith(`${name} `));
  if (key) return [`${key}: ${text.slice(key.length).trim()}`];
  const [, tried, counts] = /^(.*\S)\s+(\d+\s+of\s+\d+)$/.exec(text) ?? [];
  return tried !== undefined && ATTEMPT.test(tried) ? [`${tried}: ${counts}`] : [`// ${text}`];
}

function readValue(
  key: PlayerKey,
  { start }: Word,
  value: Word,
  values: Partial<PlayerValues>,
  tell: Tell,
): Partial<PlayerValues> {
  const { meaning, example, read } = PLAYER_KEYS[key];
  if (value.text === '') {
    const span = { start, end: Math.max(value.end, start + key.length + 1) };
    tell('player-value', span, `This ${key} has no value. ${meaning} For example: ${key}: ${example}.`, [`${key}: ${example}`]);
    return {};
  }
  const reading = read(value.text, playerFamily(values));
  if ('value' in reading) return { [key]: reading.value };
  tell('player-value', value, `This ${key} can't be read: ${reading.misread.why}.`, reading.misread.nearest);
  return {};
}

function attemptOf(key: Word, value: Word, tell: Tell): Pick<PlayerLine, 'attempt'> {
  const tried = readTried(key.text);
  if ('misread' in tried) {
    tell('player-attempt', key, `What was tried can't be read: ${tried.misread.why}.`, tried.misread.nearest);
    return {};
  }
  const attempts = countOf(key, value, tell);
  return attempts ? { attempt: { tried: tried.value, attempts } } : {};
}

function countOf(key: Word, value: Word, tell: Tell): Attempts | undefined {
  const found = COUNT.exec(value.text);
  const [clean, tried] = [Number(found?.[1] ?? found?.[3]), Number(found?.[2] ?? found?.[4])];
  const span = value.text === '' ? key : value;
  if (!found) {
    const near = value.text === '' ? [] : ['0 of 1'];
    const why =
      value.text === '' ? 'How the attempts went is missing' : `How the attempts went can't be read from ${quoted(value.text)}`;
    tell('player-attempt', span, `${why}; write how many came out clean, of how many, as in 4 of 10.`, near);
    return undefined;
  }
  if (clean > tried) {
    tell(
      'player-attempt',
      span,
      `${clean} of ${tried} can't be: no more can come out clean than were tried. The clean ones come first.`,
      [`${tried} of ${clean}`],
    );
    return undefined;
  }
  if (tried > MOST_ATTEMPTS) {
    tell('player-attempt', span, `${tried} attempts are more than anybody makes; write at most ${MOST_ATTEMPTS}.`);
    return undefined;
  }
  return { clean, tried };
}

function experienceOf(lines: readonly PlayerLine[]): PlayerFile['experience'] {
  const all: Record<string, Attempts> = {};
  for (const { attempt } of lines) {
    if (!attempt) continue;
    const key = triedKey(attempt.tried);
    const { clean, tried } = all[key] ?? { clean: 0, tried: 0 };
    all[key] = { clean: clean + attempt.attempts.clean, tried: tried + attempt.attempts.tried };
  }
  return all;
}
