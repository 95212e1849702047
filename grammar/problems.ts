import { t } from '../server/l10n/translate';
import type { Fix, Span, SyntaxProblem } from './tree';

/** Every code of a problem of spelling, with what it stands for. */
export const SYNTAX_CODES = {
  'unknown-setting': 'a setting that the language does not have',
  'setting-value': 'a value that its setting cannot have',
  'colon-missing': 'a setting without its colon',
  'motif-name': 'a motif without a name, or with one that means something else',
  'motif-equals': 'a motif without the = before its notes',
  unreadable: 'a word that is neither a note nor a word of the language',
  'pitch-letter': 'a pitch with a letter that is not a capital from A to G',
  accidental: 'an accidental that is not #, ##, b or bb',
  'octave-missing': 'a pitch without its octave',
  'octave-range': 'an octave above 9',
  'duration-zero': 'a duration with a zero in it',
  'duration-size': 'a duration whose numbers are too long to be meant',
  'duration-dots': 'a duration with more than one dot',
  'duration-number': 'a bare number where a duration was meant',
  'unknown-dynamic': 'a dynamic that the language does not have',
  'unknown-bar': 'a bar line that is not |, ||, |: or :|',
  'unknown-stroke': 'a word before a parenthesis that is not a bow stroke',
  'nested-stroke': 'a bow stroke inside a bow stroke',
  'parenthesis-missing': 'a bow stroke that is not opened or closed',
  'stray-parenthesis': 'a parenthesis that closes nothing',
  'bracket-missing': 'hints without their closing bracket',
  'stray-bracket': 'a bracket that closes nothing',
  'hints-without-note': 'hints that follow no note',
  'hints-empty': 'brackets without a hint',
  'hints-apart': 'the hints of one note in several brackets',
  'unknown-hint': 'a word that is no hint',
  'repeated-hint': 'two hints that answer the same question',
  'touch-missing': 'a diamond without the touched pitch',
  'circle-misplaced': 'a circle where only a pitch can stand, or apart from its pitch',
  'sounding-missing': 'an = without the sounding pitch',
  'repeated-mark': 'a tie or an = twice on one note',
  'note-missing': 'a + or a slide without its note',
  'too-many-notes': 'more than four notes at once',
  'motif-change': 'a change of a motif that is not complete',
  'line-too-long': 'a line of music longer than anyone can read',
  stray: 'a mark that has no place there',
} as const;

/** The same for player files, which no setting or comment gives another level. */
export const PLAYER_CODES = {
  'player-line': 'a line of a player file without its colon',
  'player-key': 'a line that player files do not have',
  'player-value': 'a value that a line of a player file cannot have',
  'player-twice': 'a line that is written again further down',
  'player-attempt': 'attempts that cannot be read',
} as const;

export type SyntaxCode = keyof typeof SYNTAX_CODES;
export type PlayerCode = keyof typeof PLAYER_CODES;
/** A fix that puts `text` in the place of the problem's own characters. */
export interface Replacement {
  readonly title: string;
  readonly text: string;
}

/** Where the parts of the reader put what they find wrong. */
export type Report = (problem: SyntaxProblem) => void;

export function problem(
  code: SyntaxCode | PlayerCode,
  { start, end }: Span,
  message: string,
  replacements: readonly Replacement[] = [],
): SyntaxProblem {
  const fixes = replacements.map(({ title, text }) => ({ title, edits: [{ span: { start, end }, text }] }));
  return { code, start, end, message, fixes };
}

/** Write `text` in place of what is there. */
export function write(text: string): Replacement {
  return { title: t('Write {text}', { text: text.trim() }), text };
}

/** The fix that puts `text` in place of the problem's own characters. */
export function replacement({ start, end }: Span, text: string): Fix {
  return { title: t('Write {text}', { text: text.trim() }), edits: [{ span: { start, end }, text }] };
}

/** Take it out: a piece of the text, shown as it stands. */
export function remove(written: string): Replacement {
  return removal(t('Remove {written}', { written }));
}

/** The same, where a sentence names what goes. */
export function removal(title: string): Replacement {
  return { title, text: '' };
}

/** A piece of the user's text for a message: short whatever was typed. */
export function quoted(text: string): string {
  return `“${text.length > 40 ? `${text.slice(0, 39)}…` : text}”`;
}

/** `a, b or c`. */
export function oneOf(words: readonly string[]): string {
  return words.length < 2
    ? words.join('')
    : t('{words} or {last}', { words: words.slice(0, -1).join(', '), last: words[words.length - 1] ?? '' });
}
