import { t } from '../server/l10n/translate';
import type { Fix, Span, SyntaxProblem } from './tree';

/** Every code of a problem of spelling, with what it stands for. */
export const SYNTAX_CODES = [
  /** A setting that the language does not have. */
  'unknown-setting',
  /** A value that its setting cannot have. */
  'setting-value',
  /** A setting without its colon. */
  'colon-missing',
  /** A motif without a name, or with one that means something else. */
  'motif-name',
  /** A motif without the = before its notes. */
  'motif-equals',
  /** A word that is neither a note nor a word of the language. */
  'unreadable',
  /** A pitch with a letter that is not a capital from A to G. */
  'pitch-letter',
  /** An accidental that is not #, ##, b or bb. */
  'accidental',
  /** A pitch without its octave. */
  'octave-missing',
  /** An octave above 9. */
  'octave-range',
  /** A duration with a zero in it. */
  'duration-zero',
  /** A duration whose numbers are too long to be meant. */
  'duration-size',
  /** A duration with more than one dot. */
  'duration-dots',
  /** A bare number where a duration was meant. */
  'duration-number',
  /** A dynamic that the language does not have. */
  'unknown-dynamic',
  /** A bar line that is not |, ||, |: or :|. */
  'unknown-bar',
  /** A word before a parenthesis that is not a bow stroke. */
  'unknown-stroke',
  /** A bow stroke inside a bow stroke. */
  'nested-stroke',
  /** A bow stroke that is not opened or closed. */
  'parenthesis-missing',
  /** A parenthesis that closes nothing. */
  'stray-parenthesis',
  /** Hints without their closing bracket. */
  'bracket-missing',
  /** A bracket that closes nothing. */
  'stray-bracket',
  /** Hints that follow no note. */
  'hints-without-note',
  /** Brackets without a hint. */
  'hints-empty',
  /** The hints of one note in several brackets. */
  'hints-apart',
  /** A word that is no hint. */
  'unknown-hint',
  /** Two hints that answer the same question. */
  'repeated-hint',
  /** A diamond without the touched pitch. */
  'touch-missing',
  /** A circle where only a pitch can stand, or apart from its pitch. */
  'circle-misplaced',
  /** An = without the sounding pitch. */
  'sounding-missing',
  /** A tie or an = twice on one note. */
  'repeated-mark',
  /** A + or a slide without its note. */
  'note-missing',
  /** A fingered tremolo of other than two notes. */
  'two-notes',
  /** More than four notes at once. */
  'too-many-notes',
  /** A change of a motif that is not complete. */
  'motif-change',
  /** A line of music longer than anyone can read. */
  'line-too-long',
  /** A mark that has no place there. */
  'stray',
] as const;

/** The same for player files, which no setting or comment gives another level. */
export const PLAYER_CODES = [
  /** A line of a player file without its colon. */
  'player-line',
  /** A line that player files do not have. */
  'player-key',
  /** A value that a line of a player file cannot have. */
  'player-value',
  /** A line that is written again further down. */
  'player-twice',
  /** Attempts that cannot be read. */
  'player-attempt',
] as const;

export type SyntaxCode = (typeof SYNTAX_CODES)[number];
export type PlayerCode = (typeof PLAYER_CODES)[number];
/** A fix that puts `text` in the place of the problem's own characters. */
export interface Replacement {
  readonly title: string;
  readonly text: string;
}

/** What a problem tells, and where; all spans are offsets in the file. */
export interface Told {
  readonly span: Span;
  /** What is wrong, why, and what to do, in a player's words. */
  readonly message: string;
  /** Other places that explain this one. */
  readonly related?: readonly { readonly span: Span; readonly message: string }[];
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
