import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { parseDuration, printDuration } from '../../server/music/duration';

describe('durations', () => {
  test.each([
    ['1/8', '1/8'],
    ['3/8', '3/8'],
    ['1/4.', '3/8'],
    ['1/12', '1/12'],
    ['2/8', '1/4'],
    ['1/1', '1/1'],
    ['2/1', '2/1'],
  ])('%s is %s', (text, printed) => expect(printDuration(parseDuration(text)!)).toBe(printed));
  test.each(['', '1', '0/8', '1/0', '-1/8', '1/8..', '1.5/8', 'a/b', '1 /8', '9999999/8'])('%j is none', (text) => {
    expect(parseDuration(text)).toBeUndefined();
  });
  test('print then read gives the same', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 1, max: 999 }), (n, d) => {
        const duration = new Fraction(n, d);
        expect(parseDuration(printDuration(duration))?.equals(duration)).toBe(true);
      }),
    );
  });
  test('three triplet eighths fill a quarter exactly', () => {
    const triplet = parseDuration('1/12')!;
    expect(triplet.add(triplet).add(triplet).equals(new Fraction(1, 4))).toBe(true);
  });
});
