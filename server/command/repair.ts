import type { Edit } from '../../grammar/tree';
import type { Certainty, Problem, RatedFix } from '../rules/rule';
import { fixesToApply } from '../rules/unasked';
import type { Draft } from '../workspace/snapshot';

/** A text after its fixes, read, and how many were applied. */
export interface Repaired {
  readonly draft: Draft;
  readonly applied: number;
}

/** A fix may uncover another slip on its line. A person's text is done after two or three passes, and nothing makes this go on for ever. */
const MOST_PASSES = 50;
/** Nor can fixes that fail, which are looked for among the others by reading the text again. */
const MOST_READINGS = 200;

/**
 * Applies the fixes of a text that may be applied unasked, all of a pass at once. Only reading is needed for that, no fingering,
 * so many fixes cost little more than one. Each must take its problem away and bring none: those that don't are left out.
 *
 * @param read reads a text anew, with what it was read to before
 */
export function repair(text: string, read: (text: string, before?: Draft) => Draft, certainty: Certainty): Repaired {
  let now = read(text);
  let applied = 0;
  let readings = 0;
  let last = now;
  // What was tried last is most often what is then taken.
  const after = (fixes: readonly RatedFix[]): Draft => {
    const fixed = withEdits(now.tree.text, editsOf(fixes));
    if (fixed !== last.tree.text) last = read(fixed, now);
    return last;
  };
  const tried = (fixes: readonly RatedFix[]) => (++readings > MOST_READINGS ? undefined : after(fixes));
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const fixes = helpful(now, fixesToApply(now.problems, certainty), tried);
    if (fixes.length === 0) break;
    now = after(fixes);
    applied += fixes.length;
  }
  return { draft: now, applied };
}

/** Those fixes that do what they promise: most often it is all of them, and one reading shows it. */
function helpful(
  now: Draft,
  fixes: readonly RatedFix[],
  tried: (fixes: readonly RatedFix[]) => Draft | undefined,
): readonly RatedFix[] {
  if (fixes.length === 0) return [];
  const then = tried(fixes);
  if (!then) return [];
  const clear = fixes.filter(placesWithout(then.problems, fixes));
  if (clear.length < fixes.length) return helpful(now, clear, tried);
  if (isBetter(now.problems, then.problems)) return fixes;
  if (fixes.length === 1) return [];
  const half = fixes.length >> 1;
  return [...helpful(now, fixes.slice(0, half), tried), ...helpful(now, fixes.slice(half), tried)];
}

/** Fewer problems than before; or as many and none of a new kind, for of a line full of problems only the first hundred are told. */
function isBetter(before: readonly Problem[], after: readonly Problem[]): boolean {
  if (after.length !== before.length) return after.length < before.length;
  const counts = new Map<string, number>();
  for (const { code } of before) counts.set(code, (counts.get(code) ?? 0) + 1);
  for (const { code } of after) counts.set(code, (counts.get(code) ?? 0) - 1);
  return [...counts.values()].every((count) => count >= 0);
}

/** Tells of each fix, after all of them, whether what it wrote is free of problems. */
function placesWithout(problems: readonly Problem[], fixes: readonly RatedFix[]): (fix: RatedFix) => boolean {
  const troubled = new Set<Edit>();
  // Both in the order of the text, so they are gone through side by side.
  const spans = problems.map(({ span }) => span).sort((a, b) => a.start - b.start);
  let moved = 0;
  let at = 0;
  for (const edit of inOrder(editsOf(fixes))) {
    const start = edit.span.start + moved;
    const end = start + edit.text.length;
    moved += edit.text.length - (edit.span.end - edit.span.start);
    while (at < spans.length && spans[at]!.end <= start) at++;
    if (at < spans.length && spans[at]!.start < end && spans[at]!.end > start) troubled.add(edit);
  }
  return ({ edits }) => !edits.some((edit) => troubled.has(edit));
}

function editsOf(fixes: readonly RatedFix[]): readonly Edit[] {
  return fixes.flatMap(({ edits }) => edits);
}

function inOrder(edits: readonly Edit[]): readonly Edit[] {
  return [...edits].sort((a, b) => a.span.start - b.span.start);
}

/** The text with edits that don't overlap. */
export function withEdits(text: string, edits: readonly Edit[]): string {
  const parts: string[] = [];
  let at = 0;
  for (const { span, text: put } of inOrder(edits)) {
    parts.push(text.slice(at, span.start), put);
    at = span.end;
  }
  return parts.join('') + text.slice(at);
}
