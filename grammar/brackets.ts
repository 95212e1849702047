import type { IToken } from 'chevrotain';
import { t } from '../server/l10n/translate';
import { spanOf } from './pitch-words';
import { problem, type Report } from './problems';
import { LeftBracket, LeftParenthesis, Mark, OtherStroke, RightBracket, RightParenthesis, Stroke } from './tokens';

/** Parentheses nested deeper than this are read flat, so that no text can exhaust the call stack. */
const DEEPEST = 8;

/**
 * Looks at the brackets of a line before it is parsed. Every `[` learns (as its payload) whether it is closed before the next
 * one opens, every `(` whether hints follow the `)` that closes it; parentheses that go too deep are reported once and taken out.
 */
export function settleBrackets(tokens: IToken[], report: Report): IToken[] {
  let closed = false;
  let parentheses = false;
  for (let i = tokens.length - 1; i >= 0; i--) {
    const token = tokens[i] as IToken;
    if (token.tokenType === RightBracket) closed = true;
    else if (token.tokenType === LeftBracket) {
      token.payload = closed;
      closed = false;
    } else if (token.tokenType === LeftParenthesis) parentheses = true;
  }
  return parentheses ? withoutDepths(tokens, report) : tokens;
}

function withoutDepths(tokens: IToken[], report: Report): IToken[] {
  const kept: IToken[] = [];
  const open: IToken[] = [];
  let reported = false;
  for (const [index, token] of tokens.entries()) {
    if (token.tokenType === LeftParenthesis) {
      open.push(token);
      if (open.length > DEEPEST) {
        const before = kept[kept.length - 1];
        if (before && (before.tokenType === Stroke || before.tokenType === OtherStroke || before.tokenType === Mark)) kept.pop();
        if (!reported) {
          const why = t(
            "Parentheses are nested more than {most} deep here, and the rest is read as if these were not there. One stroke can't hold another: close the first before the next begins.",
            { most: DEEPEST },
          );
          report(problem('nested-stroke', spanOf(token), why));
          reported = true;
        }
        continue;
      }
    } else if (token.tokenType === RightParenthesis) {
      const opened = open.pop();
      if (opened) opened.payload = tokens[index + 1]?.tokenType === LeftBracket;
      if (open.length >= DEEPEST) continue;
    }
    kept.push(token);
  }
  return kept;
}
