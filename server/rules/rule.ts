import type { Told } from '../../grammar/problems';
import type { Fix, Tree } from '../../grammar/tree';
import type { Passage } from '../passage/passage';
import type { Solution, SolvedEvent, Unplayable } from '../solver/solution';

export type Severity = 'error' | 'warning' | 'information' | 'hint';

/** Something a player or editor should know, at an exact place of the file. */
export interface Problem extends Told {
  readonly code: string;
  readonly severity: Severity;
  /** Worked out when first asked for, where a rule has to look for them. */
  readonly fixes: readonly RatedFix[];
}

/** A fix that says whether anybody must be asked. */
export interface RatedFix extends Fix {
  /**
   * `sure`: it writes what is meant in the language's spelling and keeps every note, duration and mark, so `--fix` and «fix all»
   * apply it unasked. `likely`: the only fix there is, and still a guess. Absent where there are several, or where one plays otherwise.
   */
  readonly certainty?: Certainty;
}

/** Which fixes are applied without asking anybody: those that are sure, or the likely ones too. */
export type Certainty = 'sure' | 'likely';

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
export type Rule = EventRule | UnplayableRule | PassageRule;

export interface EventRule extends RuleBase {
  readonly on: 'event';
  /**
   * True where the check must look at the whole passage. Else it looks at the event and the one before it: where both are fingered as
   * they were in the version before, what it was silent about is not asked again.
   */
  far?(subject: Subject, solved: SolvedEvent, event: number): boolean;
  check(subject: Subject, solved: SolvedEvent, event: number): readonly Finding[] | undefined;
}

export interface UnplayableRule extends RuleBase {
  readonly on: 'unplayable';
  check(subject: Subject, unplayable: Unplayable): readonly Finding[] | undefined;
}

export interface PassageRule extends RuleBase {
  readonly on: 'passage';
  check(subject: Subject): readonly Finding[];
}

/** A problem before its code and severity are filled in from the rule. */
export interface Finding extends Pick<Problem, 'span' | 'message'> {
  /** The fixes, best first. Asked for only when somebody looks at the problem: a search for other ways costs far more than the rule. */
  readonly fixes?: () => readonly RatedFix[];
}
