import type { IToken } from 'chevrotain';
import { musicOf } from './line';
import { linesOf } from './parse';
import { spanOf } from './pitch-words';
import { type PlayerLineNode, readPlayerLine } from './player-line';
import * as T from './tokens';
import type { Comment, Edit, LineNode, LineOf, Span, Tree, Word } from './tree';
import { spaceBetween as spaceInValue, valueTokens } from './values/value-tokens';

/** Between the notes of a line and the comment after them. */
const BEFORE_COMMENT = '  ';

/**
 * The edits that bring lines `from` up to (not including) `to` into their usual spacing. They touch spaces
 * only: words, comments and line breaks stay, the tree stays the same but for places, and formatting twice
 * changes nothing more.
 */
export function formatPassage({ text, lines }: Tree, from = 0, to = lines.length): Edit[] {
  return formatLines(text, lines.slice(from, to));
}

/** The same of a player file. */
export function formatPlayer(text: string): Edit[] {
  return formatLines(text, linesOf(text, readPlayerLine));
}

function formatLines(text: string, lines: readonly LineOf<LineNode | PlayerLineNode>[]): Edit[] {
  return lines.flatMap((line) =>
    formatLine(text.slice(line.start, line.end), line, text[line.start - 1] === '\r' && text[line.end] === '\n'),
  );
}

/** The whole text in its usual spacing. */
export function formatted(tree: Tree): string {
  let text = '';
  let at = 0;
  for (const { span, text: spaces } of formatPassage(tree)) {
    text += tree.text.slice(at, span.start) + spaces;
    at = span.end;
  }
  return text + tree.text.slice(at);
}

function formatLine(text: string, line: LineOf<LineNode | PlayerLineNode>, joins: boolean): Edit[] {
  // Emptying this line would make one line break of the two around it.
  if (joins && text.trim() === '') return [];
  const edits: Edit[] = [];
  // A byte order mark is no spacing.
  let at = text.startsWith('\uFEFF') ? 1 : 0;
  for (const { start, end, before } of piecesOf(text, line.node)) {
    // What lies between two pieces is spaces, unless the line is too long to be read to its end.
    if (text.slice(at, start) !== before && text.slice(at, start).trim() === '') {
      edits.push({ span: { start: line.start + at, end: line.start + start }, text: before });
    }
    at = end;
  }
  if (at < text.length && text.slice(at).trim() === '') {
    edits.push({ span: { start: line.start + at, end: line.end }, text: '' });
  }
  return edits;
}

/** A stretch of a line without free spacing in it, and the spacing that belongs before it. */
interface Piece extends Span {
  readonly before: string;
}

function piecesOf(text: string, node: LineNode | PlayerLineNode): Piece[] {
  const pieces = bodyOf(text, node);
  const before = pieces.length === 0 ? '' : BEFORE_COMMENT;
  if (node.comment) pieces.push(...commentPieces(text, node.comment, before));
  return pieces;
}

/** A remark keeps its spaces, but for those that part the words of a check comment. */
function commentPieces(text: string, comment: Comment, before: string): Piece[] {
  if (!comment.check) return [{ ...comment, before }];
  const { start, end } = comment.check;
  return [{ start: comment.start, end: start, before }, ...valuePieces(valueTokens(text.slice(start, end), start))];
}

function bodyOf(text: string, node: LineNode | PlayerLineNode): Piece[] {
  switch (node.kind) {
    case 'blank':
      return [];
    case 'passage':
      return entryPieces(text, node.name);
    case 'setting':
    case 'entry':
      return entryPieces(text, node.value, node.parts);
    case 'attempts': {
      const { key, value, tried, counts } = node;
      const words = tried ? valuePieces(valueTokens(key.text, key.start), '') : [{ ...key, before: '' }];
      return [
        ...words,
        { start: key.end, end: text.indexOf(':', key.end) + 1, before: '' },
        ...entryPieces(text, value, counts).slice(1),
      ];
    }
    case 'instruction': {
      const sign = text.indexOf('>');
      const mark = { start: sign, end: sign + 1, before: '' };
      return node.text.text === '' ? [mark] : [mark, { ...node.text, before: ' ' }];
    }
    case 'motif':
    case 'music':
      return musicPieces(T.tokenize(musicOf(text, node.comment?.start)));
  }
}

/** The key, and its value as it is, or in its parts where they could be read. */
function entryPieces(text: string, value: Word, parts?: unknown): Piece[] {
  const key = keyPiece(text, value.start);
  if (value.text === '') return [key];
  const isWord = parts === undefined || (typeof parts === 'object' && parts !== null && 'text' in parts);
  return [key, ...(isWord ? [{ ...value, before: ' ' }] : valuePieces(valueTokens(value.text, value.start)))];
}

function valuePieces(tokens: readonly IToken[], before = ' '): Piece[] {
  return tokens.map((token, i) => ({ ...spanOf(token), before: i === 0 ? before : spaceInValue(tokens[i - 1], token) }));
}

/** The key with its colon; without one (an error) the key alone. */
function keyPiece(text: string, valueStart: number): Piece {
  const head = text.slice(0, valueStart).trimEnd();
  return { start: head.length - head.trimStart().length, end: head.length, before: '' };
}

function musicPieces(tokens: readonly IToken[]): Piece[] {
  return tokens.map((token, i) => ({ ...spanOf(token), before: spaceBetween(tokens[i - 1], token, tokens[i + 1]) }));
}

const TIGHT_AFTER: ReadonlySet<unknown> = new Set([T.LeftParenthesis, T.LeftBracket, T.Plus]);
const TIGHT_BEFORE: ReadonlySet<unknown> = new Set([T.RightParenthesis, T.RightBracket, T.Plus, T.Tie]);

function spaceBetween(left: IToken | undefined, right: IToken, next: IToken | undefined): string {
  if (!left) return '';
  const asItWas = left.startOffset + left.image.length === right.startOffset ? '' : ' ';
  // A space after a word and before a diamond makes the diamond a note of its own; a mark that nothing reads stays as it is.
  if (left.tokenType === T.Diamond || left.tokenType === T.Stray || right.tokenType === T.Stray) return asItWas;
  // A tie before a stray colon would make one word of the two, and the word a setting's: `wave _:`.
  if (right.tokenType === T.Tie && next?.image.startsWith(':')) return asItWas;
  if (right.tokenType === T.Diamond && !TIGHT_AFTER.has(left.tokenType)) return asItWas;
  if (left.tokenType === T.RightParenthesis && right.tokenType === T.LeftBracket) return '';
  if (right.tokenType === T.LeftParenthesis) return left.tokenType === T.Stroke || left.tokenType === T.Mark ? '' : asItWas;
  return TIGHT_AFTER.has(left.tokenType) || TIGHT_BEFORE.has(right.tokenType) ? '' : ' ';
}
