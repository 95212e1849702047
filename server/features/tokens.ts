import { absolute } from '../../grammar/at';
import type { HintList, Item, Line, NoteNode, Span, Tree } from '../../grammar/tree';

/** The legend of semantic tokens: the protocol's own type names, so every colour theme knows them. */
export const TOKEN_TYPES = [
  'property',
  'string',
  'comment',
  'keyword',
  'number',
  'variable',
  'enumMember',
  'operator',
  'function',
  'class',
] as const;
export const TOKEN_MODIFIERS = ['declaration', 'static'] as const;

export type TokenType = (typeof TOKEN_TYPES)[number];
export type TokenModifier = (typeof TOKEN_MODIFIERS)[number];

export interface SemanticToken extends Span {
  readonly type: TokenType;
  readonly modifier?: TokenModifier;
}

/** What each stretch of the text is, in order and without overlap. Only within `range` where it is given. */
export function semanticTokens(tree: Tree, range?: Span): readonly SemanticToken[] {
  const lines = range ? tree.lines.filter((line) => line.end >= range.start && line.start <= range.end) : tree.lines;
  return lines.flatMap((line) =>
    [...lineTokens(line)]
      .filter((token) => token.end > token.start)
      .sort((a, b) => a.start - b.start)
      .map((token) => ({ ...token, ...absolute(line, token) })),
  );
}

function* lineTokens({ node }: Line): Generator<SemanticToken> {
  if (node.comment) yield token('comment', node.comment);
  switch (node.kind) {
    case 'setting':
      yield token('property', node.key);
      yield token('string', node.value);
      return;
    case 'passage':
      yield token('class', node.name, 'declaration');
      return;
    case 'instruction':
      yield token('string', node.text);
      return;
    case 'motif':
      yield token('function', node.name, 'declaration');
      yield* itemTokens(node.items);
      return;
    case 'music':
      yield* itemTokens(node.items);
  }
}

function* itemTokens(items: readonly Item[]): Generator<SemanticToken> {
  for (const item of items) {
    switch (item.kind) {
      case 'duration':
        yield token('number', item);
        break;
      case 'dynamic':
      case 'direction':
      case 'jump':
      case 'ending':
      case 'rest':
        yield token('keyword', item);
        break;
      case 'bar':
        yield token('operator', item);
        break;
      case 'stroke':
        yield token('keyword', item.word);
        yield* itemTokens(item.items);
        yield* hintTokens(item.hints);
        break;
      case 'group':
        if (item.mark) yield token('keyword', { start: item.mark.start, end: item.mark.end });
        yield* itemTokens(item.items);
        yield* hintTokens(item.hints);
        break;
      case 'motif':
        yield token('function', item.name);
        for (const change of item.changes) yield token('keyword', change);
        break;
      case 'event':
        for (const mark of item.marks ?? []) yield token('keyword', mark);
        if (item.slide) yield token('keyword', item.slide);
        for (const note of item.notes) yield* noteTokens(note);
    }
  }
}

/** Harmonics stand out from stopped notes, so a reader finds them at a glance. */
function* noteTokens({ form, expected, tie, hints }: NoteNode): Generator<SemanticToken> {
  const harmonic = form.kind !== 'plain' || form.circle !== undefined;
  yield harmonic ? token('variable', form, 'static') : token('variable', form);
  if (expected) yield token('operator', expected);
  if (tie) yield token('operator', tie);
  yield* hintTokens(hints);
}

function* hintTokens(list: HintList | undefined): Generator<SemanticToken> {
  for (const hint of list?.hints ?? []) {
    const number = hint.kind === 'finger' || hint.kind === 'fingers' || hint.kind === 'node';
    yield token(number ? 'number' : 'enumMember', hint);
  }
}

function token(type: TokenType, { start, end }: Span, modifier?: TokenModifier): SemanticToken {
  return { type, start, end, ...(modifier && { modifier }) };
}
