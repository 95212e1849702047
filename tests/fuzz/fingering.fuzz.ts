import fc from 'fast-check';
import { expect, it } from 'vitest';
import { formatted } from '../../grammar/format';
import { pinAll } from '../../server/features/pin-choice';
import type { Fingering, Solution } from '../../server/solver/solution';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { type Snapshot, snapshot } from '../../server/workspace/snapshot';
import { edited } from '../support/caret';
import { reading, shorthand } from '../support/reading';
import { runs } from '../support/runs';
import { change, hostile, written } from './texts';

it('a passage pinned as it is fingered is fingered as it is pinned, at the same cost', () => {
  let pinned = 0;
  fc.assert(
    fc.property(written, (text) => {
      const before = reading(text);
      const edits = before.solutions.flatMap((solution) => pinAll(before, solution.passage, choices(solution)));
      const after = reading(edited(text, edits));
      if (edits.length > 0) pinned++;
      expect(played(after)).toEqual(played(before));
    }),
    runs(200, 811),
  );
  expect(pinned).toBeGreaterThan(100);
});

it('after any edits everything is as if read and fingered for the first time', () => {
  fc.assert(
    fc.property(hostile, fc.array(change, { minLength: 1, maxLength: 4 }), (text, changes) => {
      let now = reading(text);
      for (const edit of changes) now = snapshot(edit(now.tree.text), now.version + 1, DEFAULT_SETTINGS, now);
      expect(substance(now)).toEqual(substance(reading(now.tree.text)));
    }),
    runs(300, 812),
  );
});

it('formatting moves no finger', () => {
  fc.assert(
    fc.property(hostile, (text) => {
      const before = reading(text);
      expect(played(reading(formatted(before.tree)))).toEqual(played(before));
    }),
    runs(200, 813),
  );
});

function choices(solution: Solution): ReadonlyMap<number, Fingering> {
  return new Map(
    [...solution.events.entries()].flatMap(([index, solved]) => (solved ? [[index, solved.fingering] as const] : [])),
  );
}

/** How every passage is played, and what every event's share of its cost is. */
function played({ solutions }: Snapshot): unknown {
  return solutions.map(({ events, cost, clean }) => ({
    events: events.map(
      (event) => event && { ways: event.fingering.ways.map(shorthand), terms: event.terms, speaks: event.speaks },
    ),
    cost,
    clean,
  }));
}

function substance({ tree, problems, solutions }: Snapshot): unknown {
  return {
    lines: tree.lines,
    // Their fixes are worked out on being asked for, and must not remember the text they were first seen in.
    problems: problems.map(({ code, severity, message, span, fixes }) => ({ code, severity, message, span, fixes })),
    solutions: solutions.map(({ events, unplayables, cost, clean, hardest }) => ({ events, unplayables, cost, clean, hardest })),
  };
}
