import type { Span, Tree } from '../../grammar/tree';
import type { Passage } from '../passage/passage';
import type { Deadlock, Solution, SolvedEvent } from '../solver/solution';

export type Severity = 'error' | 'warning' | 'information' | 'hint';

/** Something a player or editor should know, at an exact place of the file. */
export interface Problem {
  readonly code: string;
  readonly severity: Severity;
  /** What is wrong, why, and what to do, in a player's words. */
  readonly message: string;
  /** Offsets in the file. */
  readonly span: Span;
  /** Worked out when first asked for, where a rule has to look for them. */
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

/** What a rule looks at: a passage with its fingering, in the file that it was read from. */
export interface Subject {
  readonly tree: Tree;
  readonly passage: Passage;
  readonly solution: Solution;
}

interface RuleBase {
  /** Readable, kebab-case; also the name of the rule's page beside it. */
  readonly code: string;
  /** Unless a setting or a comment in the file says otherwise. */
  readonly severity: Severity;
}

/**
 * A rule looks at one event at a time, so that a long passage is gone through once and a silent event costs nothing but a
 * few comparisons: at an event as fingered, or at one that can't be played. Only what shows over many events is looked
 * for in the whole passage.
 */
export type Rule = EventRule | DeadlockRule | PassageRule;

export interface EventRule extends RuleBase {
  readonly on: 'event';
  check(subject: Subject, solved: SolvedEvent, event: number): readonly Finding[] | undefined;
}

export interface DeadlockRule extends RuleBase {
  readonly on: 'deadlock';
  check(subject: Subject, deadlock: Deadlock): readonly Finding[] | undefined;
}

export interface PassageRule extends RuleBase {
  readonly on: 'passage';
  check(subject: Subject): readonly Finding[];
}

/** A problem before its code and severity are filled in from the rule. */
export interface Finding extends Pick<Problem, 'span' | 'message'> {
  /** The cures, best first. Asked for only when somebody looks at the problem: a search for other ways costs far more than the rule. */
  readonly fixes?: () => readonly Fix[];
}
