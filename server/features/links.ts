import { absolute } from '../../grammar/at';
import type { Span, Tree } from '../../grammar/tree';
import type { Resolved } from '../passage/resolve';
import { CODES } from '../rules/check';

/** A rule named in a check comment, which leads to the rule's page. */
export interface RuleLink {
  readonly span: Span;
  readonly code: string;
}

/** A player file that a setting names; `file` is its path from the passage's folder. */
export interface PlayerLink {
  readonly span: Span;
  readonly file: string;
}

export function playerLinks({ settings }: Resolved): readonly PlayerLink[] {
  return settings.flatMap(({ key, value, valueSpan }) =>
    key === 'player' && typeof value === 'string' ? [{ span: valueSpan, file: value }] : [],
  );
}

export function ruleLinks(tree: Tree): readonly RuleLink[] {
  return tree.lines.flatMap((line) =>
    (line.node.comment?.check?.levels ?? [])
      .filter(({ code }) => CODES.includes(code.text))
      .map(({ code }) => ({ span: absolute(line, code), code: code.text })),
  );
}
