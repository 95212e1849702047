import type { IToken, TokenType } from 'chevrotain';
import { type ParsedKind, valueParser } from './value-parser';
import { valueTokens, WRITTEN } from './value-tokens';

/** One token of each type that a value may hold, as it would be written. */
let samples: readonly IToken[] | undefined;

function sampled(): readonly IToken[] {
  const written = [...WRITTEN.values()].map(([first = '']) => first);
  return [...written, '1-2', '1', '.', 'D4'].flatMap((text) => valueTokens(text));
}

/** The types of the tokens that may follow, as the grammar has it: each is tried. */
export function expectedAfter(kind: ParsedKind, tokens: readonly IToken[]): readonly TokenType[] {
  samples ??= sampled();
  return samples
    .filter((sample) => {
      const read = valueParser().read(kind, [...tokens, sample]);
      return 'node' in read || read.misfit > tokens.length;
    })
    .map(({ tokenType }) => tokenType);
}
