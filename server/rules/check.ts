import { absolute, lineAt } from '../../grammar/at';
import { SYNTAX_CODES } from '../../grammar/problems';
import type { Tree } from '../../grammar/tree';
import { t } from '../l10n/translate';
import { keptEnds } from '../passage/kept-ends';
import type { EventSource } from '../passage/passage';
import { PASSAGE_CODES } from '../passage/problem';
import type { Solution } from '../solver/solution';
import { COMMENT_CODES, type Level, type LevelComments, type Levels, levelComments } from './levels';
import type { EventRule, Finding, PassageRule, Problem, RatedFix, Rule, Severity, UnplayableRule } from './rule';
import { RULES } from './table';

/** Every code that a problem can have, for settings and check comments: what is played first, what is spelt last. */
export const CODES: readonly string[] = [...RULES.map(({ code }) => code), ...PASSAGE_CODES, ...COMMENT_CODES, ...SYNTAX_CODES];

const EVENT_RULES = RULES.filter((rule): rule is EventRule => rule.on === 'event');
const UNPLAYABLE_RULES = RULES.filter((rule): rule is UnplayableRule => rule.on === 'unplayable');
const PASSAGE_RULES = RULES.filter((rule): rule is PassageRule => rule.on === 'passage');

/** Gives every problem of one version of a file the level that the settings and the file's comments ask, and runs the rules. */
export interface Checker {
  /** What reading the text found wrong, and check comments that name no code or no level. */
  read(problems: readonly Problem[]): readonly Problem[];
  /** What the rules have to say about a fingering, in short steps. `earlier`: that of the version before, checked. */
  played(solution: Solution, earlier?: Solution): Generator<void, readonly Problem[]>;
}

/** Levels: a comment for the line wins over one for the file, that over `settings`, that over the problem's own severity. */
export function createChecker(tree: Tree, settings: Levels): Checker {
  const comments = levelComments(tree, CODES);
  const level = levelAt(tree, comments, settings);
  return {
    read: (problems) =>
      [...problems, ...comments.problems].flatMap((problem) => {
        const severity = level(problem.code, problem.severity, problem.span.start);
        return severity === 'off' ? [] : [severity === problem.severity ? problem : { ...problem, severity }];
      }),
    played: (solution, earlier) => played(tree, solution, level, earlier),
  };
}

/** Works out the level of a code at a place; `severity` where neither comments nor settings name it. */
type LevelAt = (code: string, severity: Severity, offset: number) => Level;

function levelAt(tree: Tree, { file, lines }: LevelComments, settings: Levels): LevelAt {
  return (code, severity, offset) =>
    (lines.size ? lines.get(lineAt(tree, offset))?.[code] : undefined) ?? file[code] ?? settings[code] ?? severity;
}

/** Events looked at between two yields. */
const STRIDE = 500;

/** Of solutions that have been checked, the events that a rule had to tell something of, or must look at again whatever changes. */
const toldOf = new WeakMap<Solution, readonly number[]>();

function* played(tree: Tree, solution: Solution, level: LevelAt, earlier?: Solution): Generator<void, readonly Problem[]> {
  const { passage, events, unplayables } = solution;
  const subject = { tree, passage, solution };
  const told = collector(tree, level);
  for (const unplayable of unplayables) {
    for (const rule of UNPLAYABLE_RULES)
      told.add(rule, rule.check(subject, unplayable), passage.events[unplayable.event]!.source);
  }
  const spoken: number[] = [];
  let looked = 0;
  for (const event of eventsToCheck(solution, earlier)) {
    const solved = events[event];
    if (!solved) continue;
    if (++looked % STRIDE === 0) yield;
    let again = false;
    for (const rule of EVENT_RULES) {
      if (rule.far?.(subject, solved, event)) {
        again = true;
        yield* solution.work.prepare();
      }
      const findings = rule.check(subject, solved, event);
      if (!findings) continue;
      again = true;
      told.add(rule, findings, passage.events[event]!.source);
    }
    if (again) spoken.push(event);
  }
  toldOf.set(solution, spoken);
  for (const rule of PASSAGE_RULES) told.add(rule, rule.check(subject));
  return told.problems;
}

/** In order: the events that are fingered otherwise than they were, or come after one that is, and those that were told of. */
function* eventsToCheck({ events }: Solution, earlier: Solution | undefined): Generator<number, void> {
  const told = (earlier && toldOf.get(earlier)) ?? [];
  const old = earlier && toldOf.has(earlier) ? earlier.events : [];
  const shift = events.length - old.length;
  const { head, tail } = keptEnds(events.length, old.length, (now, was) => events[now] === old[was]);
  // The first of the rest comes after one that may be another.
  const past = Math.min(events.length, events.length - tail + 1);
  for (const event of told) if (event < head) yield event;
  for (let event = head; event < past; event++) yield event;
  for (const event of told) if (event + shift >= past) yield event + shift;
}

/**
 * Gathers findings so that each is told once at a place. All notes of a motif stand where the motif is used: the first of
 * them that a rule reports is told there, and every one as a related place in the motif.
 */
function collector(tree: Tree, level: LevelAt) {
  const problems: Problem[] = [];
  const related = new Map<string, { span: { start: number; end: number }; message: string }[]>();
  return {
    problems,
    add(rule: Rule, findings: readonly Finding[] | undefined, source?: EventSource): void {
      if (!findings) return;
      for (const finding of findings) {
        const severity = level(rule.code, rule.severity, finding.span.start);
        if (severity === 'off') continue;
        if (!source?.definition) {
          problems.push(problemOf(rule.code, severity, finding));
          continue;
        }
        const place = absolute(tree.lines[source.definition.line]!, source.definition.span);
        const key = `${rule.code} ${finding.span.start}`;
        const earlier = related.get(key);
        if (!earlier) {
          const places = [{ span: place, message: t('This note of the motif.') }];
          related.set(key, places);
          problems.push(problemOf(rule.code, severity, finding, places));
        } else if (earlier.every(({ span }) => span.start !== place.start))
          earlier.push({ span: place, message: finding.message });
      }
    },
  };
}

/** A finding as a problem, whose fixes are looked for when they are first asked for and then kept. */
function problemOf(code: string, severity: Severity, { span, message, fixes }: Finding, related?: Problem['related']): Problem {
  let found: readonly RatedFix[] | undefined;
  return {
    code,
    severity,
    message,
    span,
    get fixes() {
      found ??= fixes?.() ?? [];
      return found;
    },
    ...(related && { related }),
  };
}
