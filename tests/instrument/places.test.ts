import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { feelsLike, NODES, touchPlace } from '../../server/instrument/nodes';
import { centsPerMm, semitonePlace, semitonesAt, soundingLength, stopPlace } from '../../server/instrument/places';
import { cents } from '../../server/music/temperament';

const LENGTH = fc.double({ min: 150, max: 760, noNaN: true });
const SEMITONES = fc.double({ min: 0, max: 36, noNaN: true });

describe('places on a string', () => {
  test('what is left sounds what was asked: frequency times length is kept', () => {
    fc.assert(
      fc.property(LENGTH, SEMITONES, (length, up) => {
        const hz = 196 * 2 ** (up / 12);
        const mm = stopPlace(length, 196, hz);
        expect(soundingLength(length, mm) * hz).toBeCloseTo(length * 196, 6);
        expect(mm).toBeCloseTo(semitonePlace(length, up), 9);
        expect(semitonesAt(length, mm)).toBeCloseTo(up, 9);
      }),
    );
  });

  test('cents per mm is the slope of the pitch along the string', () => {
    fc.assert(
      fc.property(LENGTH, SEMITONES, (length, up) => {
        const mm = semitonePlace(length, up);
        const step = 1e-4;
        const slope = cents(soundingLength(length, mm - step) / soundingLength(length, mm + step)) / (2 * step);
        expect(centsPerMm(soundingLength(length, mm)) / slope).toBeCloseTo(1, 5);
      }),
    );
    expect(centsPerMm(1)).toBeCloseTo(1731, 0);
  });

  test('a touch on a stopped string divides what the stop leaves', () => {
    const nutEnd = semitonePlace(328, 5);
    expect(touchPlace(nutEnd, 328 - nutEnd, 1, 4)).toBeCloseTo(semitonePlace(328, 5) + (328 * 2 ** (-5 / 12)) / 4, 9);
  });

  test('every node feels like the nearest semitone', () => {
    for (const { k, n } of NODES) {
      const { semitones, fingerOffset } = feelsLike(k, n, 328);
      const node = touchPlace(0, 328, k, n);
      expect(Math.abs(semitonesAt(328, node) - semitones)).toBeLessThanOrEqual(0.5);
      expect(node + fingerOffset).toBeCloseTo(semitonePlace(328, semitones), 9);
    }
  });
});
