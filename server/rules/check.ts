import { lineAt } from '../../grammar/at';
import type { Tree } from '../../grammar/tree';
import type { Passage } from '../passage/passage';
import type { Solution } from '../solver/solution';
import { type Level, type LevelComments, type Levels, levelComments } from './levels';
import type { Finding, Problem, Rule } from './rule';
import { RULES } from './table';

const TEXT_RULES = RULES.filter((rule) => rule.on === 'text');
const SOLUTION_RULES = RULES.filter((rule) => rule.on === 'solution');
/** Every rule's code, for settings and check comments. */
export const RULE_CODES: readonly string[] = RULES.map((rule) => rule.code);

/** Runs the rules over one version of a file, each at the level that the settings and the file's comments give it. */
export interface Checker {
  /** Check comments that name no rule or no level. */
  readonly comments: readonly Problem[];
  /** The rules that need only the text of a passage. */
  text(passage: Passage): readonly Problem[];
  /** The rules that look at the fingering. */
  played(solution: Solution): readonly Problem[];
}

/** Levels: a comment for the line wins over one for the file, that over `settings`, that over the rule's own severity. */
export function createChecker(tree: Tree, settings: Levels): Checker {
  const comments = levelComments(tree, RULE_CODES);
  const levelled = (rule: Rule, findings: readonly Finding[]) => withLevels(tree, comments, settings, rule, findings);
  return {
    comments: comments.problems,
    text: (passage) => TEXT_RULES.flatMap((rule) => levelled(rule, rule.check({ tree, passage }))),
    played: (solution) =>
      SOLUTION_RULES.flatMap((rule) => levelled(rule, rule.check({ tree, passage: solution.passage, solution }))),
  };
}

function withLevels(
  tree: Tree,
  comments: LevelComments,
  settings: Levels,
  rule: Rule,
  findings: readonly Finding[],
): readonly Problem[] {
  if (findings.length === 0) return [];
  const general: Level = comments.file[rule.code] ?? settings[rule.code] ?? rule.severity;
  return findings.flatMap((finding) => {
    const own = comments.lines.size ? comments.lines.get(lineAt(tree, finding.span.start))?.[rule.code] : undefined;
    const severity = own ?? general;
    return severity === 'off' ? [] : [{ ...finding, code: rule.code, severity }];
  });
}
