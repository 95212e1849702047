import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { NODES } from '../../server/instrument/nodes';
import { damping, tolerance } from '../../server/instrument/tolerance';

describe('tolerance', () => {
  test.each([
    [3, 8.1],
    [4, 4.6],
    [5, 3.2],
    [6, 2.4],
  ])('partial %i on 328 mm: about %d mm', (n, mm) => expect(tolerance(328, 1, n)).toBeCloseTo(mm, 1));

  test('partial 6 closes altogether high on the string', () => {
    expect(tolerance(164, 1, 6)).toBeGreaterThan(0);
    expect(tolerance(110, 1, 6)).toBe(0);
  });

  test('mirrored nodes have the same tolerance', () => {
    for (const { k, n } of NODES) expect(tolerance(300, k, n)).toBeCloseTo(tolerance(300, n - k, n), 1);
  });

  test('agrees with a plain search in steps of 0.02 mm at every node and length', () => {
    fc.assert(
      fc.property(fc.constantFrom(...NODES), fc.double({ min: 60, max: 690, noNaN: true }), ({ k, n }, length) => {
        const holds = (off: number): boolean => {
          const mm = (length * k) / n + off;
          let least = 1;
          for (let m = 1; m < 3 * n; m++) if (m % n !== 0) least = Math.min(least, damping(m, mm, length, 7));
          return damping(n, mm, length, 7) < 0.3 * least;
        };
        let found = 0;
        while (found < length && holds(found) && holds(-found)) found += 0.02;
        expect(Math.abs(tolerance(length, k, n) - found)).toBeLessThan(0.04);
      }),
      { numRuns: 150 },
    );
  });

  test('scales with the string and the finger together, is nothing for a very wide finger, grows with a laxer share', () => {
    expect(tolerance(656, 1, 4, { width: 14 })).toBeCloseTo(2 * tolerance(328, 1, 4, { width: 7 }), 1);
    expect(tolerance(328, 1, 4, { width: 40 })).toBe(0);
    expect(tolerance(328, 1, 4, { share: 0.5 })).toBeGreaterThan(tolerance(328, 1, 4, { share: 0.3 }));
  });

  test('a point finger on the node leaves its partial alone and damps the rest', () => {
    expect(damping(4, 82, 328, 0)).toBeCloseTo(0, 12);
    expect(damping(1, 82, 328, 0)).toBeCloseTo(0.5, 12);
    expect(damping(2, 82, 328, 0)).toBeCloseTo(1, 12);
  });
});
