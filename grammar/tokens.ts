import { createToken, type IToken, Lexer, type TokenType } from 'chevrotain';
import { DIRECTIONS, DYNAMICS, JUMPS, MARKS, STRESSES, wordsPattern } from './marks';

/**
 * The tokens of a music or motif line. Together they cover every character, so reading a line into
 * tokens cannot fail: what is no note or word of the language becomes a `Word` or a `Stray`.
 */

/** A character of a word; everything else is space or punctuation. */
const LETTERS = String.raw`[^\s\[\](){}|+<>=:,;_]`;
/** Where a word must end. An underscore inside a word belongs to it, at its end it is a tie. */
export const WORD_END = `(?!${LETTERS}|_+${LETTERS})`;
const ACCIDENTAL = String.raw`(?:##?|bb?|♯♯?|♭♭?|\uD834[\uDD2A\uDD2B])`;
const ACCIDENTALS = String.raw`(?:[#b♯♭x♮]|\uD834[\uDD2A\uDD2B])*`;
const OTHER_NAME = '(?:[A-Ha-h](?:(?:is){1,2}|(?:es){1,2})|[AEae]s)';

const word = (source: string): RegExp => new RegExp(source + WORD_END);

/** Abstract: anything that may stand between `[` and `]`. */
export const Inside = createToken({ name: 'Inside', pattern: Lexer.NA });
/** Abstract: a written word of any kind, readable or not. */
export const AnyWord = createToken({ name: 'AnyWord', pattern: Lexer.NA, categories: [Inside] });
/** Abstract: a word in the place of a pitch. */
export const PitchWord = createToken({ name: 'PitchWord', pattern: Lexer.NA, categories: [AnyWord] });
/** Abstract: the word of a bow stroke, known or not, with its parenthesis after it. */
export const StrokeWord = createToken({ name: 'StrokeWord', pattern: Lexer.NA, categories: [Inside] });
/** Abstract: what is nothing by itself. */
export const Loose = createToken({ name: 'Loose', pattern: Lexer.NA });

const token = (name: string, pattern: RegExp, categories: TokenType[] = [Inside]): TokenType =>
  createToken({ name, pattern, categories, line_breaks: false });

const Space = createToken({ name: 'Space', pattern: /\s+/, group: Lexer.SKIPPED, line_breaks: false });

export const Pitch = token('Pitch', word(`[A-G]${ACCIDENTAL}?[0-9][o°]?`), [PitchWord]);
/** A slash, or one of the two fraction signs that print as one. */
export const SLASH = String.raw`[/\u2044\u2215]`;
export const Fraction = token('Fraction', word(String.raw`[0-9]+${SLASH}[0-9]+\.*`));
/** `2+2`, among hints: how a chord is broken. */
export const Breaking = token('Breaking', word(String.raw`[0-9]\+[0-9]`), [Inside, Loose]);
export const Bar = token('Bar', /:*\|[|:]*/);
export const LeftBracket = token('LeftBracket', /\[/);
export const RightBracket = token('RightBracket', /\]/, [Loose]);
export const LeftParenthesis = token('LeftParenthesis', /\(/);
export const RightParenthesis = token('RightParenthesis', /\)/);
export const Diamond = token('Diamond', /<>/);
export const Plus = token('Plus', /\+/, [Inside, Loose]);
export const Equals = token('Equals', /=/, [Inside, Loose]);
export const Tie = token('Tie', /_/, [Inside, Loose]);
/** `slur`, `up` or `down` with its parenthesis after it. */
export const Stroke = token('Stroke', /(?:slur|up|down)(?=\s*\()/, [StrokeWord]);
export const Dynamic = token('Dynamic', word(`(?:${wordsPattern([...DYNAMICS, ...STRESSES])})`));
export const Mark = token('Mark', word(`(?:${wordsPattern(MARKS.map((mark) => mark.word))})`));
export const Saying = token('Saying', word(`(?:${wordsPattern(DIRECTIONS.map((direction) => direction.word))})`));
/** `"dolce"`. */
export const Quotation = token('Quotation', /["“][^"“”]+["”]/);
export const Jump = token('Jump', word(`(?:${wordsPattern(JUMPS.map((jump) => jump.word))})`));
/** Of a repeat: `ending 1`, `ending 1, 2`. */
export const Ending = token('Ending', word(String.raw`ending\s+[1-9](?:\s*,\s*[1-9])*`));
export const Rest = token('Rest', word('rest'));
/** A rest of whole bars: `rest 4 bars`. */
export const BarsRest = token('BarsRest', word(String.raw`rest\s+[1-9][0-9]{0,2}\s+bars?`), [Rest, Inside]);
export const Slide = token('Slide', word('slide'));
/** `up` or `down` before an interval or a number of steps. */
export const Direction = token('Direction', word('(?:up|down)'), [Inside, Loose]);
export const On = token('On', word('on'), [Inside, Loose]);
export const In = token('In', word('in'), [Inside, Loose]);
export const Backwards = token('Backwards', word('backwards'), [Inside, Loose]);
export const Motif = token('Motif', word('motif'), [Inside, Loose]);
/** Words of the language that cannot stand where they do: `slur` without a parenthesis, a lone circle. */
export const Reserved = token('Reserved', word('(?:slur|o|°)'), [Inside, Loose]);
/** A word straight before a parenthesis that is no stroke. */
export const OtherStroke = token('OtherStroke', /[A-Za-z]{2,}(?=\()/, [StrokeWord]);
/** Meant as a pitch, by its look, but not one: `H5`, `d6`, `F#`, `D60`, `Fis5`. */
export const LikePitch = token(
  'LikePitch',
  word(`(?:[A-H]${ACCIDENTALS}[0-9]*|[a-h]${ACCIDENTALS}[0-9]+|${OTHER_NAME}[0-9]+)[oO°º]?`),
  [PitchWord],
);
/** Letters of the scripts that people name things in; one that begins as a pitch does is no name. */
const NAME_LETTERS = 'A-Za-z\u00C0-\u02AF\u0370-\u1FFF\u3040-\uD7FF';
export const Name = token(
  'Name',
  word(`(?![A-G]${ACCIDENTAL}?[0-9])[${NAME_LETTERS}][0-9${NAME_LETTERS}-]*(?:_+[0-9${NAME_LETTERS}-]+)*`),
  [AnyWord],
);
export const Word = token('Word', new RegExp(`${LETTERS}+(?:_+${LETTERS}+)*`), [PitchWord]);
/** Punctuation that has no place in music. */
export const Stray = token('Stray', /:+|[<>,;{}]/, [Inside, Loose]);

/** In the order they are tried. */
const CONCRETE = [
  Space,
  Pitch,
  Fraction,
  Breaking,
  Bar,
  LeftBracket,
  RightBracket,
  LeftParenthesis,
  RightParenthesis,
  Diamond,
  Plus,
  Equals,
  Tie,
  Stroke,
  Dynamic,
  Mark,
  Saying,
  Quotation,
  Jump,
  Ending,
  BarsRest,
  Rest,
  Slide,
  Direction,
  On,
  In,
  Backwards,
  Motif,
  Reserved,
  OtherStroke,
  LikePitch,
  Name,
  Word,
  Stray,
];

export const TOKENS: TokenType[] = [Inside, AnyWord, PitchWord, StrokeWord, Loose, ...CONCRETE];

/** Tokens that can't be meant as hints: they end a list of hints that lacks its bracket. */
export const ENDS_HINTS: ReadonlySet<TokenType> = new Set([
  Pitch,
  Bar,
  LeftBracket,
  LeftParenthesis,
  RightParenthesis,
  Diamond,
  Plus,
  Equals,
  Tie,
  Stroke,
  OtherStroke,
  Mark,
  BarsRest,
  Rest,
  Slide,
]);

/** In safe mode, which tries the patterns in turn: a table of first letters takes longer to make than it saves in 10,000 notes. */
const lexer = new Lexer(CONCRETE, { positionTracking: 'onlyOffset', skipValidations: true, safeMode: true });

/** Reads one line (without its comment) into tokens. Offsets count from the start of the line. */
export function tokenize(line: string): IToken[] {
  return lexer.tokenize(line).tokens;
}
