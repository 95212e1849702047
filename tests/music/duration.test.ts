import fc from 'fast-check';
import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import { parse } from '../../grammar/parse';
import { durationText } from '../../server/music/duration';

test('what is printed is read as the same duration', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 1, max: 999 }), (n, d) => {
      const duration = new Fraction(n, d);
      const [node] = parse(durationText(duration)).lines.map((line) => line.node);
      expect(node).toMatchObject({
        items: [{ kind: 'duration', numerator: Number(duration.n), denominator: Number(duration.d) }],
      });
    }),
  );
});

test.each([
  [1, 1, '1/1'],
  [2, 8, '1/4'],
  [6, 16, '3/8'],
])('%i/%i is %s', (n, d, text) => expect(durationText(new Fraction(n, d))).toBe(text));
