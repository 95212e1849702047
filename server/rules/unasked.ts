import type { Span } from '../../grammar/tree';
import type { Certainty, Fix, Problem } from './rule';

/**
 * The cures that «fix all», `--fix` and (likely ones too) `--unsafe-fixes` apply, one for a problem; of two that touch the
 * same place the first.
 */
export function curesToApply(problems: readonly Problem[], certainty: Certainty): readonly Fix[] {
  const chosen: Fix[] = [];
  const taken: Span[] = [];
  // Problems come in the order of their places, so most cures lie beyond all that is taken.
  let furthest = -1;
  const isFree = (span: Span) => span.start > furthest || !taken.some((other) => touches(span, other));
  for (const problem of problems) {
    const cure = cureOf(problem, certainty);
    if (!cure?.edits.every(({ span }) => isFree(span))) continue;
    chosen.push(cure);
    for (const { span } of cure.edits) {
      taken.push(span);
      furthest = Math.max(furthest, span.end);
    }
  }
  return chosen;
}

function cureOf({ fixes }: Problem, certainty: Certainty): Fix | undefined {
  return fixes.find((fix) => fix.certainty === 'sure' || (certainty === 'likely' && fix.certainty === 'likely'));
}

function touches(a: Span, b: Span): boolean {
  return (a.start < b.end && b.start < a.end) || a.start === b.start;
}
