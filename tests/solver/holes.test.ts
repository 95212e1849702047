import { describe, expect, it } from 'vitest';
import type { EventSpec } from '../../server/passage/passage';
import { alternatives } from '../../server/solver/alternatives';
import { kBest } from '../../server/solver/best';
import { NAT } from '../../server/solver/cost';
import { createSolver } from '../../server/solver/solve';
import { event, note, passage, setup } from './build';

const playable = (...texts: string[]): EventSpec[] => texts.map((text) => event([note(text)]));
const UNPLAYABLE = event([note('C2')]);
const SILENT = event([], { seconds: 0, rest: 1 });

/** `firstBeat`: the beat of the first event, which fingerings mind. */
const solved = (specs: readonly EventSpec[], firstBeat = 1) => createSolver().solve(passage(specs, setup(), firstBeat));
const whole = (cost: number) => Math.round(cost * NAT);

/** The least sums of one of each, cheapest first. */
function sums(parts: readonly (readonly number[])[], k: number): readonly number[] {
  const all = parts.reduce<readonly number[]>((sofar, part) => sofar.flatMap((one) => part.map((other) => one + other)), [0]);
  return [...all].sort((a, b) => a - b).slice(0, k);
}

describe('a passage with a note that can not be played', () => {
  const before = playable('A4', 'D5', 'B4');
  const after = playable('E5', 'D6o', 'A4');

  // Nothing leads over the hole, so what is best before it and what is best after it make up the whole, in every way.
  it.each([
    ['in its middle', [before, after], [UNPLAYABLE]],
    ['two of them', [before, after], [UNPLAYABLE, UNPLAYABLE]],
    ['at its head', [[], after], [UNPLAYABLE]],
    ['at its end', [before, []], [UNPLAYABLE]],
  ] as const)('%s: the k best are the best sums of its parts', (_, [left, right], hole) => {
    const solution = solved([...left, ...hole, ...right]);
    const best = kBest(solution, 9);
    const parts = [left, right].filter(({ length }) => length > 0);
    const expected = sums(
      parts.map((part) => kBest(solved(part), 9).map(({ cost }) => whole(cost))),
      9,
    );
    expect(best.map(({ cost }) => whole(cost))).toEqual(expected);
    for (const { events } of best) {
      expect(events.map(Boolean)).toEqual(Array.from(solution.events, Boolean));
    }
    expect(best[0]?.events).toEqual([...solution.events]);
    const shapes = best.map(({ events }) => JSON.stringify(events.map((one) => one?.fingering.ways)));
    expect(new Set(shapes).size).toBe(best.length);
  });

  it('has no other way for that note, and those of its parts for the others', () => {
    const solution = solved([...before, UNPLAYABLE, ...after]);
    expect(alternatives(solution, before.length)).toEqual([]);
    expect(alternatives(solution, 99)).toEqual([]);
    for (const at of [0, 1, 2]) expect(alternatives(solution, at)).toEqual(alternatives(solved(before), at));
  });

  it('of which nothing can be played: nothing is best', () => {
    const [only, ...others] = kBest(solved([UNPLAYABLE, UNPLAYABLE]), 3);
    expect(only).toEqual({ events: [undefined, undefined], cost: 0 });
    expect(others).toEqual([]);
  });
});

describe('a passage that opens with a rest', () => {
  it('has the k best of what comes after it', () => {
    const after = playable('A4', 'D5', 'B4');
    const costs = (specs: readonly EventSpec[], firstBeat: number) =>
      kBest(solved(specs, firstBeat), 9).map(({ cost }) => whole(cost));
    expect(costs([SILENT, ...after], 1)).toEqual(costs(after, 2));
    // The lowest string lies farthest from where a bow that had to come from anywhere would come from.
    for (const first of ['G3', 'D4', 'E5']) {
      const [, ...heard] = solved([SILENT, ...playable(first), ...after]).events;
      expect(heard).toEqual([...solved([...playable(first), ...after], 2).events]);
    }
  });
});

describe('other ways', () => {
  const solution = solved(playable('A4', 'D6o', 'B4'));
  const all = alternatives(solution, 1);

  it('are cheapest first, and never the one chosen', () => {
    const costs = all.map(({ extraCost }) => extraCost);
    expect(costs.length).toBeGreaterThan(3);
    expect(costs).toEqual([...costs].sort((a, b) => a - b));
    for (const { fingering } of all) expect(fingering).not.toEqual(solution.events[1]?.fingering);
  });

  it('can be asked for up to a cost, it included', () => {
    const limit = all[2]?.extraCost as number;
    expect(alternatives(solution, 1, limit)).toEqual(all.filter(({ extraCost }) => extraCost <= limit));
    expect(alternatives(solution, 1, limit).length).toBeGreaterThanOrEqual(3);
    expect(alternatives(solution, 1, 0)).toEqual(all.filter(({ extraCost }) => extraCost === 0));
  });
});
