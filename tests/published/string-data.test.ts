import { describe, expect, test } from 'vitest';
import { buildInstrument } from '../../server/instrument/build';
import { FAMILIES } from '../../server/instrument/constants';
import { stiffnessCents } from '../../server/instrument/stiffness';

describe('published: Desvages 2018; Russo, Ducceschi and Bilbao, DAFx 2022 — violin strings E A D G', () => {
  // The authors' strings are 320 mm long; ours are the same strings on a full-size instrument.
  const at320 = buildInstrument({ family: 'violin', size: { mm: 320 }, tuning: 'equal', a4: 440 });
  const full = FAMILIES.violin.sizes['4/4'] as number;

  test.each([
    [0, 0.48e-4, 73, 0.41],
    [1, 2.1e-4, 57.1, 0.72],
    [2, 2.3e-4, 56.9, 1.61],
    [3, 2.7e-4, 43.9, 2.79],
  ])('string %i: B %d, tension %d N, density %d g/m', (index, b, tension, density) => {
    const string = at320.strings[index];
    // A string made for 320 mm instead of 328 is assumed that much heavier; take that back out.
    const heavier = full / 320;
    expect((string?.density as number) / heavier).toBeCloseTo(density, 2);
    expect(Math.abs((string?.tension as number) / heavier / tension - 1)).toBeLessThan(0.01);
    expect(Math.abs(((string?.inharmonicity as number) * heavier) / b - 1)).toBeLessThan(0.02);
  });

  test('their cello strings give the tension they state', () => {
    const cello = buildInstrument({ family: 'cello', tuning: 'equal', a4: 440 });
    for (const [index, string] of cello.strings.entries()) {
      expect(Math.abs(string.tension / (FAMILIES.cello.strings[index]?.tension as number) - 1)).toBeLessThan(0.01);
    }
  });
});

describe('published: H. Fletcher, JASA 36, 1964 — partials of a stiff string', () => {
  test('about 866 B (n^2 - 1) cents sharp', () => {
    for (const n of [2, 3, 4, 5, 6]) {
      const exact = stiffnessCents(2.1e-4, 328, 328, n);
      expect(Math.abs(exact / (866 * 2.1e-4 * (n * n - 1)) - 1)).toBeLessThan(0.01);
    }
  });
  test('stopping to half the string counts as four times the stiffness', () => {
    const once = stiffnessCents(1e-6, 328, 328, 4);
    expect(stiffnessCents(1e-6, 328, 164, 4) / once).toBeCloseTo(4, 3);
  });
  test('the fundamental is what the string is tuned by', () => expect(stiffnessCents(2.7e-4, 328, 200, 1)).toBe(0));
});

describe('published: artifastring, measured viola — tensions', () => {
  test('density, length and pitch give the tension stated, within the tuning of the measured strings', () => {
    for (const [index, data] of FAMILIES.viola.strings.entries()) {
      const hz = [440, 293.33, 195.56, 130.37][index] as number;
      const tension = 4 * ((data.length / 1000) * hz) ** 2 * (data.density / 1000);
      expect(Math.abs(tension / data.tension - 1)).toBeLessThan(0.02);
    }
  });
});
