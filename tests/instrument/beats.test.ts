import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { doubleStopIntonation } from '../../server/instrument/beats';
import { amplitude } from './partials';

describe('published: A. J. Ellis in Helmholtz, Sensations of Tone, 1885 (from memory) — just intervals by their ratios', () => {
  test.each([
    [16, 15, 'm2'],
    [10, 9, 'M2'],
    [9, 8, 'M2'],
    [8, 7, 'M2'],
    [7, 6, 'm3'],
    [6, 5, 'm3'],
    [5, 4, 'M3'],
    [4, 3, 'P4'],
    [7, 5, 'd5'],
    [10, 7, 'A4'],
    [3, 2, 'P5'],
    [8, 5, 'm6'],
    [5, 3, 'M6'],
    [7, 4, 'm7'],
    [16, 9, 'm7'],
    [9, 5, 'm7'],
    [15, 8, 'M7'],
  ])('%i:%i is a pure %s', (upper, lower, name) => {
    const found = doubleStopIntonation(240 * lower, 240 * upper);
    expect(found.just).toEqual({ upper, lower, name, octaves: 0 });
    expect(found.beats).toBeCloseTo(0, 6);
  });
});

describe('just interval of a double stop', () => {
  test.each([
    [440, 660, 'P5', 0, 0],
    [440, 550, 'M3', 0, 0],
    [660, 440, 'P5', 0, 0],
    [440, 440, 'P1', 0, 0],
    [440, 880, 'P1', 1, 0],
    [440, 1320, 'P5', 1, 0],
    [400, 960, 'm3', 1, 0],
    [440, 440 * 2 ** (4 / 12), 'M3', 0, 13.686],
    [440, 440 * 2 ** (7 / 12), 'P5', 0, -1.955],
    [440, 440 * 2 ** (11.9 / 12), 'P1', 1, -10],
    [440, 770, 'm7', 0, 0],
  ])('%d and %d Hz: %s and %i octaves, %d cents wide', (a, b, name, octaves, off) => {
    const found = doubleStopIntonation(a, b);
    expect(found.just).toMatchObject({ name, octaves });
    expect(found.cents).toBeCloseTo(off, 3);
  });

  test.each([
    [190, 9, 8],
    [175, 10, 9],
    [1008, 9, 5],
    [996, 16, 9],
    [982, 7, 4],
    [600, 7, 5],
    // Out of tune with everything: the nearest.
    [45, 1, 1],
    [70, 16, 15],
    [350, 6, 5],
    [352, 5, 4],
    [1050, 9, 5],
    [1056, 15, 8],
  ])('%i cents, between two ratios: the simpler, %i:%i, unless it is out of earshot', (wide, upper, lower) => {
    expect(doubleStopIntonation(300, 300 * 2 ** (wide / 1200)).just).toMatchObject({ upper, lower });
  });

  // Ratios multiply: an octave on top of 9:8 is 18:8, in lowest terms 9:4.
  test.each([
    [9, 4, 'M2', 1],
    [7, 2, 'm7', 1],
    [7, 3, 'm3', 1],
    [5, 1, 'M3', 2],
    [6, 1, 'P5', 2],
  ])('%i:%i in lowest terms', (upper, lower, name, octaves) => {
    expect(doubleStopIntonation(200 * lower, 200 * upper).just).toEqual({ upper, lower, name, octaves });
  });

  test('the equal-tempered fifth A4-E5 beats 1.49 times a second at 1320 Hz', () => {
    const { beats, at } = doubleStopIntonation(440, 440 * 2 ** (7 / 12));
    expect(beats).toBeCloseTo(1.4894, 3);
    expect(at).toBeCloseTo(1320, 9);
  });

  test('is in lowest terms, never beats when pure, and beats in proportion to pitch', () => {
    fc.assert(
      fc.property(fc.double({ min: 100, max: 3000, noNaN: true }), fc.double({ min: 1, max: 8, noNaN: true }), (low, ratio) => {
        const { just, cents, beats } = doubleStopIntonation(low, low * ratio);
        const pure = doubleStopIntonation(low, (low * just.upper) / just.lower);
        expect(pure.beats).toBeCloseTo(0, 6);
        expect(2 ** (cents / 1200) * (just.upper / just.lower)).toBeCloseTo(ratio, 9);
        expect(doubleStopIntonation(2 * low, 2 * low * ratio).beats).toBeCloseTo(2 * beats, 6);
      }),
    );
  });

  test('the beat is there in the sum of two sawtooths, and at no other rate', () => {
    const rate = 8000;
    const [low, high] = [200, 301];
    const sum = Float32Array.from({ length: 4 * rate }, (_, i) => {
      const t = i / rate;
      let value = 0;
      for (let m = 1; m <= 3; m++) value += (Math.sin(2 * Math.PI * m * low * t) + Math.sin(2 * Math.PI * m * high * t)) / m;
      return value;
    });
    const { beats, at } = doubleStopIntonation(low, high);
    expect(beats).toBeCloseTo(2, 9);
    // Two partials stand exactly that far apart around where they should meet.
    expect(amplitude(sum, rate, at, 0, 4)).toBeCloseTo(1 / 3, 1);
    expect(amplitude(sum, rate, at + beats, 0, 4)).toBeCloseTo(1 / 2, 1);
    expect(amplitude(sum, rate, at + beats / 2, 0, 4)).toBeLessThan(0.05);
  });
});
