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

export interface LineTokens {
  readonly line: Line;
  /** Counted from the start of the line, in order and without overlap. */
  readonly tokens: readonly SemanticToken[];
}

/** What each stretch of the text is, line by line. Only of lines within `range` where it is given. */
export function* semanticTokens(tree: Tree, range?: Span): Generator<LineTokens, void> {
  for (const line of tree.lines) {
    if (range && (line.end < range.start || line.start > range.end)) continue;
    const tokens = tokensOf(line);
    if (tokens.length > 0) yield { line, tokens };
  }
}

/** The node of a line that an edit leaves alone is the same object, and so are its tokens. */
const known = new WeakMap<Line['node'], readonly SemanticToken[]>();

function tokensOf(line: Line): readonly SemanticToken[] {
  let tokens = known.get(line.node);
  if (!tokens) {
    tokens = [...lineTokens(line)].filter(({ start, end }) => end > start).sort((a, b) => a.start - b.start);
    known.set(line.node, tokens);
  }
  return tokens;
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
        yield token('keyword', item);
        break;
      case 'rest':
        for (const mark of item.marks ?? []) yield token('keyword', mark);
        yield token('keyword', { start: item.marks ? item.end - 'rest'.length : item.start, end: item.end });
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
