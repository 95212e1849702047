import { createToken, type IToken, Lexer, type TokenType } from 'chevrotain';

/** The tokens of values, check comments and lines of attempts. Together they cover every character, so reading them cannot fail. */

/** A character of a word; everything else is space or punctuation. */
const LETTER = '[^\\s,=/%"]';
const END = `(?!${LETTER})`;
const UNITS = '(?:mm|in|inch|inches|hz|cents?)';
const ACCIDENTAL = String.raw`(?:##?|bb?|♯♯?|♭♭?|\uD834[\uDD2A\uDD2B])`;

/** Abstract: anything but a comma. */
export const AnyWord = createToken({ name: 'AnyWord', pattern: Lexer.NA });

/** Abstract: what notes can keep to. */
export const Kept = createToken({ name: 'Kept', pattern: Lexer.NA });

const sign = (name: string, pattern: RegExp, categories = [AnyWord]): TokenType =>
  createToken({ name, pattern, categories, line_breaks: false });
const word = (name: string, source: string, categories: TokenType[] = []): TokenType =>
  createToken({
    name,
    pattern: new RegExp(`(?:${source})${END}`, 'i'),
    categories: [AnyWord, ...categories],
    line_breaks: false,
  });

const Space = createToken({ name: 'Space', pattern: /\s+/, group: Lexer.SKIPPED, line_breaks: false });

export const Comma = sign('Comma', /,/, []);
export const Equals = sign('Equals', /=/);
export const Slash = sign('Slash', /\//);
export const Percent = sign('Percent', /%/);
/** Two fingers. */
export const Pair = word('Pair', '[0-9a-z]-[0-9a-z]');
export const Numeral = sign('Numeral', new RegExp(String.raw`\d+(?:\.\d+)?(?=\.?${END}|${UNITS}${END})`, 'i'));
export const Dot = sign('Dot', new RegExp(`\\.${END}`));
export const Millimetres = word('Millimetres', 'mm');
export const Inches = sign('Inches', new RegExp(`(?:in|inch|inches)${END}|"`, 'i'));
export const Hertz = word('Hertz', 'hz');
export const Cents = word('Cents', 'cents?');
export const Of = word('Of', 'of');

export const Pitch = word('Pitch', `[A-G]${ACCIDENTAL}?\\d`);
export const TuningA = word('TuningA', 'A4', [Pitch]);
export const KeyName = word('KeyName', `[A-G]${ACCIDENTAL}?`);
export const Family = word('Family', 'violin|viola|cello');
export const HandName = word('HandName', 'small|medium|large');
export const Child = word('Child', 'child');
export const Fifths = word('Fifths', 'fifths');
export const Equal = word('Equal', 'equal');
export const Pythagorean = word('Pythagorean', 'pythagorean');
export const Just = word('Just', 'just');
export const Stopped = word('Stopped', 'stopped');
export const Manner = word('Manner', 'natural|artificial');
export const Interval = word('Interval', String.raw`minor[\s-]+third|third|fourth|fifth|sixth|octave`);
export const Mode = word('Mode', 'major|minor');
export const WhichLevel = word('WhichLevel', 'student|advanced|professional');
export const WhichStyle = word('WhichStyle', 'safe|singing|brilliant');
export const WhichHarmonics = word('WhichHarmonics', 'marked|allowed|all');
export const WhichClef = word('WhichClef', 'treble|alto|tenor|bass|automatic');
export const Free = word('Free', 'free');
export const NoOpenStrings = word('NoOpenStrings', String.raw`no\s+open\s+strings`, [Kept]);
/** `3rd`. */
export const Position = word('Position', '[1-9][0-9]?(?:st|nd|rd|th)', [Kept]);
export const StringName = word('StringName', 'IV|I{1,3}', [Kept]);
/** What is none of these. */
export const Other = sign('Other', new RegExp(`${LETTER}+`));

/** In the order they are tried. */
const CONCRETE = [
  Space,
  Comma,
  Equals,
  Slash,
  Percent,
  Pair,
  Numeral,
  Dot,
  Millimetres,
  Inches,
  Hertz,
  Cents,
  Of,
  TuningA,
  Pitch,
  KeyName,
  Family,
  HandName,
  Child,
  Fifths,
  Equal,
  Pythagorean,
  Just,
  Stopped,
  Manner,
  Interval,
  Mode,
  WhichLevel,
  WhichStyle,
  WhichHarmonics,
  WhichClef,
  Free,
  NoOpenStrings,
  Position,
  StringName,
  Other,
];

export const VALUE_TOKENS: TokenType[] = [AnyWord, Kept, ...CONCRETE];

/** How the tokens that stand for few words or one sign are written; the others stand for too many to list. */
export const WRITTEN: ReadonlyMap<TokenType, readonly string[]> = new Map([
  [Comma, [',']],
  [Equals, ['=']],
  [Slash, ['/']],
  [Percent, ['%']],
  [Millimetres, ['mm']],
  [Inches, ['in']],
  [Hertz, ['Hz']],
  [Cents, ['cents']],
  [Of, ['of']],
  [TuningA, ['A4']],
  [KeyName, ['D']],
  [Family, ['violin', 'viola', 'cello']],
  [HandName, ['small', 'medium', 'large']],
  [Child, ['child']],
  [Fifths, ['fifths']],
  [Equal, ['equal']],
  [Pythagorean, ['pythagorean']],
  [Just, ['just']],
  [Stopped, ['stopped']],
  [Manner, ['natural', 'artificial']],
  [Interval, ['minor-third', 'third', 'fourth', 'fifth', 'sixth', 'octave']],
  [Mode, ['major', 'minor']],
  [WhichLevel, ['student', 'advanced', 'professional']],
  [WhichStyle, ['safe', 'singing', 'brilliant']],
  [WhichHarmonics, ['marked', 'all', 'allowed']],
  [WhichClef, ['treble', 'alto', 'tenor', 'bass', 'automatic']],
  [Free, ['free']],
  [NoOpenStrings, ['no open strings']],
  [Position, ['1st', '2nd', '3rd', '4th', '5th']],
  [StringName, ['I', 'II', 'III', 'IV']],
]);

/** Made when first asked for: a passage without settings needs none. */
let lexer: Lexer | undefined;

/** Reads a piece of a line into tokens, whose offsets count from `start` of the line. */
export function valueTokens(text: string, start = 0): IToken[] {
  lexer ??= new Lexer(CONCRETE, { positionTracking: 'onlyOffset', skipValidations: true, safeMode: true });
  const { tokens } = lexer.tokenize(text);
  if (start > 0) for (const token of tokens) token.startOffset += start;
  return tokens;
}

/** Tight where a sign joins what is written as one (`3/4`, `48,`); a unit keeps the space it has or hasn't. */
export function spaceBetween(left: IToken | undefined, right: IToken): string {
  if (!left) return '';
  const { tokenType } = right;
  if (tokenType === Comma || tokenType === Slash || tokenType === Dot || left.tokenType === Slash) return '';
  const touches = left.startOffset + left.image.length === right.startOffset;
  return touches && (tokenType === Millimetres || tokenType === Inches || tokenType === Hertz || tokenType === Percent)
    ? ''
    : ' ';
}
