import { t } from '../server/l10n/translate';
import { readComment } from './check-comment';
import { readEntry } from './entry';
import { nearest } from './nearest';
import { MusicParser } from './parser';
import { problem, quoted, type Report, write } from './problems';
import { SETTING_KEYS, settingKey } from './settings';
import { WORD_END } from './tokens';
import type { LineNode, SyntaxProblem, Word } from './tree';

const BLANK = /^\s*$/;
const INSTRUCTION = /^\s*>/;
const MOTIF = new RegExp(`^\\s*motif${WORD_END}`);
/** A word, or a few of letters alone, and a colon that begins no repeat (`D5 :|`). */
const KEYED = /^\s*((?:[A-Za-z]+\s+){1,2}[A-Za-z]+|[^\s[\](){}|+<>=:,;/]+)\s*:(?!\|)/;
/** A word at the start, with the `=` after it that some write for a colon. */
const FIRST_WORD = new RegExp(`^\\s*([a-z]+)(\\s*=|${WORD_END}|(?=//))`);
const LIKE_NOTE = /^[A-H][#b♯♭]*[0-9]+[o°]?_?$/;
const KEYS = [...SETTING_KEYS, 'passage'];
const IS_KEY: ReadonlySet<string> = new Set(KEYS);
/** Words of the trade for the same settings. */
const MEANT: ReadonlyMap<string, string> = new Map([
  ['time', 'meter'],
  ['time signature', 'meter'],
  ['metre', 'meter'],
  ['key signature', 'key'],
  ['bpm', 'tempo'],
  ['speed', 'tempo'],
  ['scordatura', 'tuning'],
  ['strings', 'tuning'],
  ['name', 'title'],
  ['reach', 'hand'],
]);

/** A longer line of music is no music; reading it would keep the editor waiting for seconds. In characters. */
const LONGEST_MUSIC = 200_000;
/** More problems than this on one line help nobody. */
const MOST_PROBLEMS = 100;

let parser: MusicParser | undefined;

/** Reads one line, without its line break. Depends on nothing but these characters. */
export function readLine(line: string): LineNode {
  const problems: SyntaxProblem[] = [];
  const free = INSTRUCTION.exec(line);
  if (free) {
    const [text, comment] = splitText(line, free[0].length);
    return { kind: 'instruction', text, problems, ...(comment && { comment: readComment(comment) }) };
  }
  const key = keyOf(line, problems);
  if (key) {
    const [value, comment] = splitText(line, key.after);
    const rest = { problems, ...(comment && { comment: readComment(comment) }) };
    if (key.word.text === 'passage') return { kind: 'passage', name: value, ...rest };
    const row = settingKey(key.word.text);
    const parts = row && readEntry(row, key.word, value, 'setting-value', (found) => void problems.push(found));
    return { kind: 'setting', key: key.word, value, ...(parts && { parts }), ...rest };
  }
  const slashes = line.indexOf('//');
  const end = slashes < 0 ? line.length : slashes;
  const music = musicOf(line, end);
  const rest = { problems, ...(slashes >= 0 && { comment: readComment(wordOf(line, slashes, line.length)) }) };
  if (BLANK.test(music)) return { kind: 'blank', ...rest };
  parser ??= new MusicParser();
  const report: Report = (found) => {
    if (problems.length < MOST_PROBLEMS) problems.push(found);
  };
  if (music.length < end) report(tooLong(music.length));
  const node: LineNode = MOTIF.test(music)
    ? { kind: 'motif', ...parser.parseMotif(music, report), ...rest }
    : { kind: 'music', items: parser.parseMusic(music, report), ...rest };
  problems.sort((a, b) => a.start - b.start);
  return node;
}

/** The part of a line that is read as music: up to the comment, and to the last whole word within bounds. */
export function musicOf(line: string, comment = line.length): string {
  if (comment <= LONGEST_MUSIC) return line.slice(0, comment);
  const space = line.lastIndexOf(' ', LONGEST_MUSIC);
  return line.slice(0, space < 0 ? LONGEST_MUSIC : space);
}

function tooLong(start: number): SyntaxProblem {
  const why = t('This line is too long: only its first {most} characters are read. Break it into several.', {
    most: LONGEST_MUSIC,
  });
  return problem('line-too-long', { start, end: start + 1 }, why);
}

/** The key of a setting line and where its value begins; reports an unknown key and a missing colon. */
function keyOf(line: string, problems: SyntaxProblem[]): { word: Word; after: number } | undefined {
  const keyed = KEYED.exec(line);
  if (keyed) {
    const text = keyed[1] as string;
    if (LIKE_NOTE.test(text) || BLANK.test(text)) return undefined;
    const start = keyed[0].indexOf(text);
    const word = { start, end: start + text.length, text };
    if (text !== 'passage' && !settingKey(text)) {
      const meant = MEANT.get(text.toLowerCase());
      const near = (meant ? [meant] : nearest(text, KEYS)).map(write);
      const why = t(
        'There is no setting {name}. The settings are {settings}. Write one of these, or remove the colon if the line is music.',
        { name: quoted(text), settings: KEYS.join(', ') },
      );
      problems.push(problem('unknown-setting', word, why, near));
    }
    return { word, after: keyed[0].length };
  }
  const first = FIRST_WORD.exec(line);
  const text = first?.[1];
  if (!first || !text || !IS_KEY.has(text)) return undefined;
  const after = first[0].length;
  const start = first[0].indexOf(text);
  const why = t('“{key}” at the start of a line is a setting, and its colon is missing. Write {key}: before the value.', {
    key: text,
  });
  problems.push(problem('colon-missing', { start, end: after }, why, [write(`${text}:`)]));
  return { word: { start, end: start + text.length, text }, after };
}

/**
 * Splits what follows `from` into text and comment. Unlike in music, slashes inside a word stay part of
 * the text, so that an address on the web can stand in a title.
 */
export function splitText(line: string, from: number): [text: Word, comment: Word | undefined] {
  let slashes = line.indexOf('//', from);
  while (slashes > from && !BLANK.test(line[slashes - 1] as string)) slashes = line.indexOf('//', slashes + 1);
  return [wordOf(line, from, slashes < 0 ? line.length : slashes), slashes < 0 ? undefined : wordOf(line, slashes, line.length)];
}

/** The text between two places of the line, without the space around it. */
function wordOf(line: string, from: number, to: number): Word {
  const text = line.slice(from, to);
  const body = text.trim();
  const start = from + (body === '' ? 0 : text.indexOf(body));
  return { start, end: start + body.length, text: body };
}
