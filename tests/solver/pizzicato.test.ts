import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/parse';
import { resolve } from '../../server/passage/resolve';
import type { Solution } from '../../server/solver/solution';
import { createSolver } from '../../server/solver/solve';

function solved(text: string): Solution {
  const { passages, problems } = resolve(parse(text));
  expect(problems).toEqual([]);
  return createSolver().solve(passages[0]!);
}

/** Common practice, no source. */
describe('a plucked note', () => {
  it('does not hang on where and how lightly it is bowed: a harmonic speaks more surely', () => {
    const speaks = (text: string) => solved(text).events[0]!.speaks[0]!;
    const short = 'tempo: 1/4 = 120\n%pp 1/16 D6o [III at 1/4]';
    expect(speaks(short.replace('%', 'pizz '))).toBeGreaterThan(speaks(short.replace('%', '')));
  });

  it('is dry where it is stopped high on a string, so it is taken lower', () => {
    const cost = (text: string) => solved(text).events[0]!.terms.height ?? 0;
    expect(cost('pizz 1/4 E6 [II]')).toBeGreaterThan(0.3);
    expect(cost('1/4 E6 [II]')).toBe(0);
    expect(cost('pizz 1/4 B4 [II]')).toBe(0);
    const both = solved('pizz 1/4 E6 [II] arco E6 [II]').events.map((one) => (one?.terms.height ?? 0) > 0);
    expect(both).toEqual([true, false]);
    expect(solved('pizz 1/4 E6').events[0]?.fingering.ways[0]?.stringName).toBe('I');
  });

  it('hardly rings as a high partial', () => {
    const soft = (text: string) => solved(text).events[0]!.terms.soft ?? 0;
    expect(soft('pizz p 1/4 F#6o [III at 1/5]')).toBeGreaterThan(0);
    expect(soft('p 1/4 F#6o [III at 1/5]')).toBe(0);
    expect(soft('pizz 1/4 A5o [III at 1/3]')).toBe(0);
  });
});
