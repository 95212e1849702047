import type { Edit } from '../../grammar/tree';
import type { Snapshot } from '../workspace/snapshot';
import type { Player } from './options';
import { study } from './study';

/** A text after its safe cures, and how many were applied. */
export interface Repaired {
  readonly snapshot: Snapshot;
  readonly applied: number;
}

/** Every cure makes at least one problem go, so a file is done long before this; a rule that breaks that promise can't hang us. */
const MOST_CURES = 10_000;

/**
 * Applies the cures that may be applied unasked, one at a time, each on the text that the one before left. A cure that
 * doesn't lessen the problems is taken back and not tried again, so repairing never makes a file worse.
 */
export function repair(text: string, player: Player, name?: string): Repaired {
  let now = study(text, player, name);
  const refused = new Set<string>();
  let applied = 0;
  for (let tried = 0; tried < MOST_CURES; tried++) {
    const cure = nextCure(now, refused);
    if (!cure) break;
    const then = study(withEdits(now.tree.text, cure.edits), player, name, now);
    if (then.problems.length < now.problems.length) {
      now = then;
      applied++;
    } else refused.add(cure.key);
  }
  return { snapshot: now, applied };
}

function nextCure(
  now: Snapshot,
  refused: ReadonlySet<string>,
): { readonly key: string; readonly edits: readonly Edit[] } | undefined {
  for (const problem of now.problems) {
    for (const { safe, edits } of problem.fixes) {
      // By words, not by place: a cure before it in the text moves the place.
      const key = `${problem.code}\n${now.tree.text.slice(problem.span.start, problem.span.end)}\n${edits.map((edit) => edit.text).join('\n')}`;
      if (safe && !refused.has(key)) return { key, edits };
    }
  }
  return undefined;
}

/** The text with edits that don't overlap. */
export function withEdits(text: string, edits: readonly Edit[]): string {
  const later = [...edits].sort((a, b) => b.span.start - a.span.start);
  return later.reduce((whole, { span, text: put }) => whole.slice(0, span.start) + put + whole.slice(span.end), text);
}
