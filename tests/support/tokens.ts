import { absolute } from '../../grammar/at';
import type { Span, Tree } from '../../grammar/tree';
import { type SemanticToken, semanticTokens } from '../../server/features/tokens';

/** All semantic tokens of a text, by offset. */
export function tokensIn(tree: Tree, range?: Span): readonly SemanticToken[] {
  return [...semanticTokens(tree, range)].flatMap(({ line, tokens }) =>
    tokens.map((token) => ({ ...token, ...absolute(line, token) })),
  );
}
