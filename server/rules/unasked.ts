import type { Span } from '../../grammar/tree';
import type { Certainty, Problem, RatedFix } from './rule';

/**
 * The fixes that «fix all», `--fix` and (likely ones too) `--unsafe-fixes` apply, one for a problem; of two that touch the
 * same place the first.
 */
export function fixesToApply(problems: readonly Problem[], certainty: Certainty): readonly RatedFix[] {
  const chosen: RatedFix[] = [];
  const taken: Span[] = [];
  // Problems come in the order of their places, so most fixes lie beyond all that is taken.
  let furthest = -1;
  const isFree = (span: Span) => span.start > furthest || !taken.some((other) => touches(span, other));
  for (const problem of problems) {
    const fix = fixOf(problem, certainty);
    if (!fix?.edits.every(({ span }) => isFree(span))) continue;
    chosen.push(fix);
    for (const { span } of fix.edits) {
      taken.push(span);
      furthest = Math.max(furthest, span.end);
    }
  }
  return chosen;
}

function fixOf({ fixes }: Problem, certainty: Certainty): RatedFix | undefined {
  return fixes.find((fix) => fix.certainty === 'sure' || (certainty === 'likely' && fix.certainty === 'likely'));
}

function touches(a: Span, b: Span): boolean {
  return (a.start < b.end && b.start < a.end) || a.start === b.start;
}
