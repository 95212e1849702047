import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { InternTable } from '../../server/music/intern';
import { exactly, NO_TIME, sum } from '../../server/music/time';
import { eventsOf, read } from '../passage/reading';

describe('equal demands are one object', () => {
  it('specs and setups, across places and files', () => {
    const events = eventsOf('1/8 D5 E5 D5 1/4 D5');
    expect(events[0]?.spec).toBe(events[2]?.spec);
    expect(events[0]?.spec).not.toBe(events[3]?.spec);
    const other = read('tempo: 1/4 = 96\nhand: medium\nD5').passages[0];
    expect(other?.events[0]?.spec).toBe(events[0]?.spec);
    expect(other?.setup).toBe(read('D5').passages[0]?.setup);
  });

  it.each([
    ['D5', 'D5o'],
    ['D5', 'ff D5'],
    ['D5', 'D5 rest'],
    ['D5', 'D5 [II]'],
    ['D5 [II]', 'D5 [2]'],
    ['slur(D5 E5)', 'D5 E5'],
    ['slide D6o', 'D6o'],
    ['E5<>A5', 'E5<>A5 [1-4]'],
    ['<>A4', '<>A4 = A5'],
    ['D5_ D5', 'D5 D5'],
    ['F#5', 'Gb5'],
  ])('different demands are not: %s and %s', (a, b) => {
    expect(eventsOf(a)[0]?.spec).not.toBe(eventsOf(b)[0]?.spec);
  });

  it('exact durations of the same length in seconds are one demand', () => {
    const [eighth] = eventsOf('tempo: 1/4 = 96\n1/8 D5');
    const [quarter] = eventsOf('tempo: 1/4 = 192\n1/4 D5');
    expect(quarter?.spec).toBe(eighth?.spec);
  });
});

describe('the table of equal demands', () => {
  it('holds on to nothing that is no longer used', async () => {
    setFlagsFromString('--expose-gc');
    const collect = runInNewContext('gc') as () => void;
    const table = new InternTable<{ readonly key: string }>();
    const kept = table.intern('kept', (key) => ({ key }));
    for (let index = 0; index < 20_000; index++) table.intern(`passing ${index}`, (key) => ({ key }));
    for (let turn = 0; turn < 50 && table.size > 1; turn++) {
      collect();
      await new Promise((done) => setTimeout(done, 5));
    }
    expect(table.size).toBe(1);
    expect(table.intern('kept', () => ({ key: 'made anew' }))).toBe(kept);
  });
});

describe('exact times', () => {
  it('are one object each', () => {
    expect(sum(exactly(1, 8), exactly(1, 8))).toBe(exactly(1, 4));
    expect(sum(exactly(1, 12), sum(exactly(1, 12), exactly(1, 12)))).toBe(exactly(3, 12));
    expect(sum(NO_TIME, exactly(1, 3))).toBe(exactly(1, 3));
  });

  it('of ever new denominators stay cheap to add', () => {
    let time = NO_TIME;
    for (let denominator = 1; denominator < 3000; denominator++) time = sum(time, exactly(1, denominator));
    expect(time.d).toBeLessThanOrEqual(10n ** 15n);
    // The harmonic number H(2999) by its asymptotic series (Euler's constant from memory), to the grid's accuracy.
    expect(time.valueOf()).toBeCloseTo(Math.log(2999) + 0.5772156649015329 + 1 / (2 * 2999) - 1 / (12 * 2999 ** 2), 9);
  });
});
