import fc from 'fast-check';
import { expect, it } from 'vitest';
import { lineAt } from '../../grammar/at';
import type { Edit, Span, Tree } from '../../grammar/tree';
import { actions } from '../../server/features/actions';
import type { Problem } from '../../server/rules/rule';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import type { Snapshot } from '../../server/workspace/snapshot';
import { edited } from '../support/caret';
import { reading } from '../support/reading';
import { runs } from '../support/runs';
import { hostile, written } from './texts';

it('any text gives a snapshot whose problems and fixes lie inside it', () => {
  fc.assert(
    fc.property(hostile, (text) => {
      const made = reading(text);
      expect(made.tree.text).toBe(text);
      expect(made.solutions).toHaveLength(made.resolved.passages.length);
      for (const { span, related = [], fixes, message } of made.problems) {
        for (const place of [span, ...related.map((other) => other.span)]) expect(inside(place, text)).toBe(true);
        expect(message.trim()).not.toBe('');
        for (const { edits } of fixes) expect(misapplied(edits, text)).toEqual([]);
      }
    }),
    runs(500, 801),
  );
});

it('every fix leaves fewer problems of its kind at its place, every comment, and every line that it does not touch', () => {
  let fixes = 0;
  fc.assert(
    fc.property(fc.oneof({ weight: 3, arbitrary: written }, { weight: 1, arbitrary: hostile }), (text) => {
      const before = reading(text);
      for (const problem of before.problems) {
        // A name made right is still the name of a file that nobody has.
        if (problem.code === 'player-file') continue;
        for (const { title, edits } of problem.fixes) {
          fixes++;
          const after = reading(edited(text, edits));
          // What is played may change beyond the place, and another note be reported there.
          const fewer =
            like(problem, after) < like(problem, before) ||
            like(problem, after, moved(problem.span, edits)) < like(problem, before, problem.span);
          expect({ title, fewer, now: after.tree.text }).toMatchObject({ fewer: true });
          for (const comment of commentsOf(before)) expect(commentsOf(after)).toContain(comment);
          expect(untouched(after, mapped(edits))).toEqual(untouched(before, edits));
        }
      }
    }),
    runs(150, 802),
  );
  expect(fixes).toBeGreaterThan(300);
});

it('safe fixes, applied again and again, come to an end and leave none', () => {
  fc.assert(
    fc.property(hostile, (text) => {
      let now = reading(text);
      for (let round = 0; ; round++) {
        const [all] = actions(now, { start: 0, end: 0 }, DEFAULT_SETTINGS, ['fixAll']);
        if (!all) break;
        expect(round).toBeLessThan(20);
        expect(misapplied(all.edits, now.tree.text)).toEqual([]);
        now = reading(edited(now.tree.text, all.edits));
      }
    }),
    runs(200, 803),
  );
});

function inside({ start, end }: Span, text: string): boolean {
  return 0 <= start && start <= end && end <= text.length;
}

/** Edits that can't be applied as they are: outside of the text, over one another, or without any effect. */
function misapplied(edits: readonly Edit[], text: string): readonly Edit[] {
  const order = [...edits].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  return order.filter(
    ({ span, text: put }, index) =>
      !inside(span, text) || span.start < (order[index - 1]?.span.end ?? 0) || text.slice(span.start, span.end) === put,
  );
}

/** Where a place is after edits; what is edited away leaves the place of the edit. */
function moved({ start, end }: Span, edits: readonly Edit[]): Span {
  const by = (offset: number, last: boolean) =>
    edits.reduce((sum, { span, text }) => {
      if (span.end < offset || (span.end === offset && (last || span.start < span.end)))
        return sum + text.length - (span.end - span.start);
      return span.start < offset ? sum + (last ? span.start + text.length : span.start) - offset : sum;
    }, offset);
  return { start: by(start, false), end: by(end, true) };
}

/** Edits at the places of what they wrote. */
function mapped(edits: readonly Edit[]): readonly Edit[] {
  return edits.map((edit) => {
    const before = edits.filter(({ span }) => span.end <= edit.span.start && span !== edit.span);
    const start = edit.span.start + before.reduce((sum, { span, text }) => sum + text.length - (span.end - span.start), 0);
    return { span: { start, end: start + edit.text.length }, text: '' };
  });
}

/** How many problems of one kind there are, in all or at a place. */
function like({ code }: Problem, { tree, problems }: Snapshot, place: Span = { start: 0, end: tree.text.length + 1 }): number {
  const inPlace = ({ start, end }: Span) =>
    start < Math.max(place.end, place.start + 1) && place.start < Math.max(end, start + 1);
  return problems.filter((one) => one.code === code && inPlace(one.span)).length;
}

function commentsOf({ tree }: Snapshot): readonly string[] {
  return tree.lines.flatMap(({ node }) => (node.comment ? [node.comment.text] : []));
}

function untouched({ tree }: Snapshot, edits: readonly Edit[]): readonly string[] {
  const touched = new Set(edits.flatMap(({ span }) => linesOf(tree, span)));
  return tree.lines.filter((_, index) => !touched.has(index)).map(({ start, end }) => tree.text.slice(start, end));
}

function linesOf(tree: Tree, { start, end }: Span): readonly number[] {
  const first = lineAt(tree, start);
  return Array.from({ length: lineAt(tree, end) - first + 1 }, (_, index) => first + index);
}
