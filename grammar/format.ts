import type { IToken } from 'chevrotain';
import { musicOf } from './line';
import { spanOf } from './pitch-words';
import * as T from './tokens';
import type { Edit, Line, LineNode, Span, Tree } from './tree';

/** Between the notes of a line and the comment after them. */
const BEFORE_COMMENT = '  ';

/**
 * The edits that bring lines `from` up to (not including) `to` into their usual spacing. They touch spaces
 * only: words, comments and line breaks stay, the tree stays the same but for places, and formatting twice
 * changes nothing more.
 */
export function format(tree: Tree, from = 0, to = tree.lines.length): Edit[] {
  const { text } = tree;
  return tree.lines
    .slice(from, to)
    .flatMap((line) =>
      formatLine(text.slice(line.start, line.end), line, text[line.start - 1] === '\r' && text[line.end] === '\n'),
    );
}

/** The whole text in its usual spacing. */
export function formatted(tree: Tree): string {
  let text = '';
  let at = 0;
  for (const { span, text: spaces } of format(tree)) {
    text += tree.text.slice(at, span.start) + spaces;
    at = span.end;
  }
  return text + tree.text.slice(at);
}

function formatLine(text: string, line: Line, joins: boolean): Edit[] {
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

function piecesOf(text: string, node: LineNode): Piece[] {
  const pieces = bodyOf(text, node);
  if (node.comment) pieces.push({ ...node.comment, before: pieces.length === 0 ? '' : BEFORE_COMMENT });
  return pieces;
}

function bodyOf(text: string, node: LineNode): Piece[] {
  switch (node.kind) {
    case 'blank':
      return [];
    case 'setting':
    case 'passage': {
      const value = node.kind === 'setting' ? node.value : node.name;
      const key = keyPiece(text, value.start);
      return value.text === '' ? [key] : [key, { ...value, before: ' ' }];
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

/** The key with its colon; without one (an error) the key alone. */
function keyPiece(text: string, valueStart: number): Piece {
  const head = text.slice(0, valueStart).trimEnd();
  return { start: head.length - head.trimStart().length, end: head.length, before: '' };
}

function musicPieces(tokens: readonly IToken[]): Piece[] {
  return tokens.map((token, i) => ({ ...spanOf(token), before: spaceBetween(tokens[i - 1], token) }));
}

const TIGHT_AFTER: ReadonlySet<unknown> = new Set([T.LeftParenthesis, T.LeftBracket, T.Plus]);
const TIGHT_BEFORE: ReadonlySet<unknown> = new Set([T.RightParenthesis, T.RightBracket, T.Plus, T.Tie]);

function spaceBetween(left: IToken | undefined, right: IToken): string {
  if (!left) return '';
  const asItWas = left.startOffset + left.image.length === right.startOffset ? '' : ' ';
  // A space after a word and before a diamond makes the diamond a note of its own; a mark that nothing reads stays as it is.
  if (left.tokenType === T.Diamond || left.tokenType === T.Stray || right.tokenType === T.Stray) return asItWas;
  if (right.tokenType === T.Diamond && !TIGHT_AFTER.has(left.tokenType)) return asItWas;
  if (left.tokenType === T.RightParenthesis && right.tokenType === T.LeftBracket) return '';
  if (right.tokenType === T.LeftParenthesis) return left.tokenType === T.Stroke ? '' : asItWas;
  return TIGHT_AFTER.has(left.tokenType) || TIGHT_BEFORE.has(right.tokenType) ? '' : ' ';
}
