import { describe, expect, test } from 'vitest';
import { impedance } from '../../server/instrument/bow';
import { buildInstrument } from '../../server/instrument/build';
import { renderString, type StringSpec } from '../../server/instrument/waveguide';
import { amplitude, partials } from './partials';

const violin = buildInstrument({ family: 'violin', tuning: 'fifths', a4: 440 });
const string = violin.strings[2]!;
const bowed: StringSpec = {
  length: violin.length,
  hz: string.hz,
  impedance: impedance(string),
  by: { distance: 33, speed: 0.2, force: 1 },
  seconds: 0.6,
  sampleRate: 44100,
};

describe('bowed string', () => {
  const sound = renderString(bowed);

  test('has the asked length, a peak of 1 and no bad numbers', () => {
    expect(sound).toHaveLength(Math.floor(0.6 * 44100));
    expect(sound.every(Number.isFinite)).toBe(true);
    expect(sound.reduce((most, value) => Math.max(most, Math.abs(value)), 0)).toBeCloseTo(1, 6);
  });

  test('settles into Helmholtz motion: partials fall as 1/n at the bridge', () => {
    const heard = partials(sound, 44100, bowed.hz, 6, 0.3, 0.6);
    for (let n = 2; n <= 6; n++) expect(Math.abs(((heard[n] as number) * n) / (heard[1] as number) - 1)).toBeLessThan(0.3);
  });

  test('is in tune to two cents, as flat as a bow makes a string', () => {
    const off = [-6, -4, -2, 0, 2, 4].map((cents) => amplitude(sound, 44100, 8 * bowed.hz * 2 ** (cents / 1200), 0.2, 0.6));
    expect([2, 3]).toContain(off.indexOf(Math.max(...off)));
  });

  test('is the same on every run', () => expect(renderString(bowed)).toEqual(sound));
});

describe('plucked string', () => {
  test.each([0, 1, 2, 3])('string %i is in tune to half a cent at every partial', (index) => {
    const { hz } = violin.strings[index]!;
    const sound = renderString({ ...bowed, hz, by: { distance: 20 }, seconds: 1 });
    for (const n of [1, 4, 6]) {
      const [flat, level, sharp] = [-0.5, 0, 0.5].map((cents) => amplitude(sound, 44100, n * hz * 2 ** (cents / 1200), 0, 1));
      expect(level as number).toBeGreaterThan(flat as number);
      expect(level as number).toBeGreaterThan(sharp as number);
    }
  });
});

describe('touched string', () => {
  test.each([44100, 48000])('a light touch at a third sounds the twelfth, at %i samples a second', (sampleRate) => {
    const sound = renderString({ ...bowed, by: { distance: 12, speed: 0.25, force: 1 }, touch: { mm: 328 / 3 }, sampleRate });
    const heard = partials(sound, sampleRate, bowed.hz, 6, 0.3, 0.6);
    expect(heard.indexOf(Math.max(...heard))).toBe(3);
  });

  test('a harmonic rings on when the finger has lifted', () => {
    const plucked: StringSpec = { ...bowed, by: { distance: 30 }, touch: { mm: 82, lifts: 0.1 } };
    const lifted = renderString(plucked);
    const heard = partials(lifted, 44100, bowed.hz, 7, 0.3, 0.6);
    expect(heard.indexOf(Math.max(...heard))).toBe(4);
    expect(heard[4] as number).toBeGreaterThan(10 * Math.max(heard[1] as number, heard[3] as number));
  });

  test('odd requests stay silent or safe rather than fail', () => {
    expect(renderString({ ...bowed, seconds: 0 })).toHaveLength(0);
    const outside = renderString({ ...bowed, by: { distance: 0 }, touch: { mm: 400 }, seconds: 0.05 });
    expect(outside.every(Number.isFinite)).toBe(true);
    const still = renderString({ ...bowed, by: { distance: 30, speed: 0, force: 1 }, seconds: 0.05 });
    expect(still.every((value) => value === 0)).toBe(true);
  });
});
