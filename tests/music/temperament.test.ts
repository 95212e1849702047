import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { type Pitch, parsePitch, semitone } from '../../server/music/pitch';
import {
  cents,
  deviation,
  FIFTH_EXCESS,
  fifthsFromA,
  frequency,
  SYNTONIC_COMMA,
  type Temperament,
} from '../../server/music/temperament';

const pitch = (text: string): Pitch => parsePitch(text) as Pitch;
const just = (tonic: string): Temperament => ({ kind: 'just', tonic: pitch(`${tonic}4`) });
const pythagorean: Temperament = { kind: 'pythagorean' };

describe('published: A. J. Ellis in Helmholtz, Sensations of Tone, 1885 (from memory) — sizes of the commas and the excess of the fifth', () => {
  test('syntonic comma 21.506, fifth 701.955, Pythagorean comma 23.460 cents', () => {
    expect(SYNTONIC_COMMA).toBeCloseTo(21.506, 3);
    expect(700 + FIFTH_EXCESS).toBeCloseTo(701.955, 3);
    expect(12 * FIFTH_EXCESS).toBeCloseTo(23.46, 3);
  });
});

describe('pythagorean', () => {
  test.each([
    ['E5', 'A4', '3/2'],
    ['B5', 'A4', '9/4'],
    ['D4', 'A4', '2/3'],
    ['F4', 'A4', '64/81'],
    ['C#5', 'A4', '81/64'],
    ['G#5', 'Ab5', '531441/524288'],
  ])('%s to %s is %s', (upper, lower, ratio) => {
    const found = frequency(pitch(upper), pythagorean, 440) / frequency(pitch(lower), pythagorean, 440);
    expect(found).toBeCloseTo(new Fraction(ratio).valueOf(), 9);
  });
});

describe('just', () => {
  const SCALE = [
    ['D4', '1'],
    ['Eb4', '16/15'],
    ['E4', '9/8'],
    ['F4', '6/5'],
    ['F#4', '5/4'],
    ['G4', '4/3'],
    ['G#4', '45/32'],
    ['A4', '3/2'],
    ['Bb4', '8/5'],
    ['B4', '5/3'],
    ['C5', '9/5'],
    ['C#5', '15/8'],
    ['D5', '2'],
  ] as const;
  test.each(SCALE)('on D: %s stands %s above it', (name, ratio) => {
    const tonic = frequency(pitch('D4'), just('D'), 440);
    expect(frequency(pitch(name), just('D'), 440) / tonic).toBeCloseTo(new Fraction(ratio).valueOf(), 9);
  });
  test('its tonic lies on the chain of fifths through A', () => {
    for (const tonic of ['D', 'G', 'C', 'E', 'Bb', 'F#'])
      expect(deviation(pitch(`${tonic}4`), just(tonic))).toBeCloseTo(FIFTH_EXCESS * fifthsFromA(pitch(`${tonic}4`)), 12);
  });
});

describe('equal', () => {
  test('no deviation, and a semitone is 100 cents', () => {
    expect(deviation(pitch('C#5'), { kind: 'equal' })).toBe(0);
    for (let octave = 0; octave < 9; octave++) {
      const c = pitch(`C${octave}`);
      expect(cents(frequency(c, { kind: 'equal' }, 442) / 442)).toBeCloseTo(100 * (semitone(c) - 69), 9);
    }
  });
});
