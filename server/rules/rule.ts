import type { Span, Tree } from '../../grammar/tree';
import type { Passage } from '../passage/passage';
import type { Solution } from '../solver/solution';

export type Severity = 'error' | 'warning' | 'information' | 'hint';

/** Something a player or editor should know, at an exact place of the file. */
export interface Problem {
  readonly code: string;
  readonly severity: Severity;
  /** What is wrong, why, and what to do, in a player's words. */
  readonly message: string;
  /** Offsets in the file. */
  readonly span: Span;
  readonly fixes: readonly Fix[];
  /** Other places that explain this one. */
  readonly related?: readonly { readonly span: Span; readonly message: string }[];
}

/** A cure: edits of the file that belong together. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
  /** True for the one cure that `--fix` and «fix all» may apply unasked. */
  readonly safe?: boolean;
}

export interface Edit {
  readonly span: Span;
  readonly text: string;
}

/** What a rule looks at. `solution` is absent while only the cheap checks run. */
export interface Subject {
  readonly tree: Tree;
  readonly passage: Passage;
}

export interface SolvedSubject extends Subject {
  readonly solution: Solution;
}

interface RuleBase {
  /** Readable, kebab-case; also the name of the rule's page beside it. */
  readonly code: string;
  /** Unless a setting or a comment in the file says otherwise. */
  readonly severity: Severity;
}

/** Text rules run at once on every edit; played rules when the solver has answered. */
export type Rule =
  | (RuleBase & { readonly on: 'text'; check(subject: Subject): readonly Finding[] })
  | (RuleBase & { readonly on: 'solution'; check(subject: SolvedSubject): readonly Finding[] });

/** A problem before its code and severity are filled in from the rule. */
export type Finding = Omit<Problem, 'code' | 'severity'>;
