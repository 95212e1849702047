import type { Span, Tree } from '../../grammar/tree';
import { CODES } from '../rules/check';

/** A rule named in a check comment, which leads to the rule's page. */
export interface RuleLink {
  readonly span: Span;
  readonly code: string;
}

export function ruleLinks(tree: Tree): readonly RuleLink[] {
  return tree.lines.flatMap((line) => {
    const { comment } = line.node;
    if (!comment || !/^\/\/\s*check\b/.test(comment.text)) return [];
    return [...comment.text.matchAll(/[a-z]+(?:-[a-z]+)+/g)]
      .filter(([code]) => CODES.includes(code))
      .map((match) => {
        const start = line.start + comment.start + match.index;
        return { span: { start, end: start + match[0].length }, code: match[0] };
      });
  });
}
