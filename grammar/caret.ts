import type { IToken } from 'chevrotain';
import { pathAt } from './at';
import { musicOf } from './line';
import { readPitch, spanOf } from './pitch-words';
import { playerKey } from './player-keys';
import { type PlayerLineNode, readPlayerLine } from './player-line';
import { type Key, settingKey } from './settings';
import * as T from './tokens';
import type { LineNode, PitchNode, Span, Tree } from './tree';
import { expectedAfter } from './values/expected';
import { isParsed } from './values/read-value';
import * as V from './values/value-tokens';
import type { ValueKind } from './values/value-tree';

/** What can be written where the caret stands, by the grammar: expected words, and what is known of the place. */
export type Caret = CaretPlace & {
  /** The word that the caret touches with its end, in the file; empty between words. */
  readonly word: Span;
};

export type CaretPlace =
  /** Free text, or nothing more. */
  | { readonly kind: 'text' }
  /** A check comment: the code of a check, or its level. */
  | { readonly kind: 'code' | 'level' }
  /** A value; `before` are the words that stand before the caret. */
  | { readonly kind: 'value'; readonly key: Key; readonly before: readonly string[]; readonly words: readonly string[] }
  /** Between brackets. */
  | { readonly kind: 'hints'; readonly before: readonly string[] }
  /** After a diamond: the pitch that is touched; `stop` is the one that stands before it. */
  | { readonly kind: 'touch'; readonly stop?: PitchNode }
  /** After the = of a printed harmonic: the pitch that it sounds. */
  | { readonly kind: 'sounding'; readonly stop?: PitchNode; readonly touch: PitchNode }
  /** After `up`, `down`, `in` or `on` behind a motif's name. */
  | { readonly kind: 'change'; readonly motif: string; readonly change: string }
  /** Music, or the start of any line; `motif`: a name just before that could be a motif's. */
  | { readonly kind: 'music'; readonly start: boolean; readonly motif?: string; readonly pitches: readonly PitchNode[] }
  /** What a line of a player file tells of: a key or a string. */
  | { readonly kind: 'key' }
  /** Behind a string at the start of a line of attempts. */
  | { readonly kind: 'manner'; readonly words: readonly string[] };

export function caretAt(tree: Tree, offset: number): Caret {
  const { line, column } = pathAt(tree, offset);
  return lifted(passagePlace(tree.text.slice(line.start, line.end), line.node, column), line.start);
}

/** The same in a player file. */
export function playerCaretAt(text: string, offset: number): Caret {
  const start = Math.max(text.lastIndexOf('\n', offset - 1), text.lastIndexOf('\r', offset - 1)) + 1;
  const rest = text.slice(start);
  const line = rest.slice(0, rest.search(/[\r\n]|$/));
  return lifted(playerPlace(line, readPlayerLine(line), offset - start), start);
}

function lifted({ word, ...place }: Caret, start: number): Caret {
  return { ...place, word: { start: word.start + start, end: word.end + start } };
}

function passagePlace(line: string, node: LineNode, column: number): Caret {
  const remark = inComment(line, node, column);
  if (remark) return remark;
  if (node.kind === 'instruction') return text(column);
  if (node.kind === 'setting' || node.kind === 'passage') {
    const value = node.kind === 'setting' ? node.value : node.name;
    const from = line.slice(0, value.start).trimEnd().length;
    const row = node.kind === 'setting' ? settingKey(node.key.text) : undefined;
    if (column >= from && line[from - 1] === ':') return row ? valuePlace(row, line, from, column) : text(column);
  }
  return musicPlace(musicOf(line.slice(0, column)), column);
}

function playerPlace(line: string, node: PlayerLineNode, column: number): Caret {
  const remark = inComment(line, node, column);
  if (remark) return remark;
  const colon = line.indexOf(':');
  if (colon >= 0 && column > colon) {
    const row = node.kind === 'entry' ? playerKey(node.key.text) : undefined;
    return row ? valuePlace(row, line, colon + 1, column) : text(column);
  }
  const { before, word } = split(V.valueTokens(line.slice(0, column)), column);
  if (before[0]?.tokenType === V.StringName) return { kind: 'manner', words: expected('tried', before), word };
  const start = line.length - line.trimStart().length;
  return { kind: 'key', word: { start: Math.min(start, column), end: column } };
}

function text(column: number): Caret {
  return { kind: 'text', word: { start: column, end: column } };
}

function inComment(line: string, { comment }: LineNode | PlayerLineNode, column: number): Caret | undefined {
  if (!comment || column <= comment.start + 1) return undefined;
  const { check } = comment;
  if (!check || column < check.start) return text(column);
  const { before, word } = split(V.valueTokens(line.slice(check.start, column), check.start), column);
  const comma = before.findLastIndex(({ tokenType }) => tokenType === V.Comma);
  return { kind: (before.length - 1 - comma) % 2 === 0 ? 'code' : 'level', word };
}

function valuePlace(key: Key, line: string, from: number, column: number): Caret {
  const { before, word } = split(V.valueTokens(line.slice(from, column), from), column);
  if (!isParsed(key.value)) return text(column);
  return { kind: 'value', key, before: before.map(({ image }) => image), words: expected(key.value, before), word };
}

/** The words that may follow; signs and what stands for too many words are left to the writer. */
function expected(kind: ValueKind, before: readonly IToken[]): readonly string[] {
  if (!isParsed(kind)) return [];
  const types = expectedAfter(kind, before).filter((type) => type !== V.KeyName);
  return types.flatMap((type) => (V.WRITTEN.get(type) ?? []).filter((written) => /^[a-z]/i.test(written)));
}

/** The tokens before the word that ends at the caret, and that word. */
function split(tokens: readonly IToken[], column: number): { readonly before: readonly IToken[]; readonly word: Span } {
  const last = tokens[tokens.length - 1];
  if (last && spanOf(last).end === column && /[^[\](){}|+<>=,:/%]$/.test(last.image)) {
    return { before: tokens.slice(0, -1), word: spanOf(last) };
  }
  return { before: tokens, word: { start: column, end: column } };
}

function musicPlace(music: string, column: number): Caret {
  const { before, word } = split(T.tokenize(music), column);
  const types = before.map(({ tokenType }) => tokenType);
  const bracket = types.lastIndexOf(T.LeftBracket);
  if (bracket > types.lastIndexOf(T.RightBracket)) {
    return { kind: 'hints', before: before.slice(bracket + 1).map(({ image }) => image), word };
  }
  const [last, previous] = [before[before.length - 1], before[before.length - 2]];
  const isChange = last && [T.Direction, T.In, T.On].includes(last.tokenType);
  if (isChange && previous?.tokenType === T.Name) {
    return { kind: 'change', motif: previous.image, change: last.image, word };
  }
  const printed = printedPlace(before, column);
  if (printed) return { ...printed, word };
  const pitches = before.flatMap((token) => (token.tokenType === T.Pitch ? [readPitch(token).pitch] : []));
  const motif = last?.tokenType === T.Name ? last.image : undefined;
  return { kind: 'music', start: before.length === 0, pitches, word, ...(motif !== undefined && { motif }) };
}

/** Inside a harmonic as it is printed: behind its diamond or behind its =. */
function printedPlace(before: readonly IToken[], column: number): CaretPlace | undefined {
  const pitchAt = (index: number) => {
    const token = before.at(index);
    return token?.tokenType === T.Pitch ? readPitch(token).pitch : undefined;
  };
  const last = before.at(-1);
  if (last?.tokenType === T.Diamond && spanOf(last).end <= column) {
    const stop = pitchAt(-2);
    return { kind: 'touch', ...(stop?.end === last.startOffset && { stop }) };
  }
  const touch = pitchAt(-2);
  const diamond = before.at(-3);
  if (last?.tokenType !== T.Equals || !touch || diamond?.tokenType !== T.Diamond) return undefined;
  const stop = pitchAt(-4);
  return { kind: 'sounding', touch, ...(stop?.end === diamond.startOffset && { stop }) };
}
