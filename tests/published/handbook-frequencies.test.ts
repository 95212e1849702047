import { describe, expect, test } from 'vitest';
import { type Pitch, parsePitch, pitchName, semitone, spell } from '../../server/music/pitch';
import { frequency } from '../../server/music/temperament';

const equal = { kind: 'equal' } as const;
const pitch = (text: string): Pitch => parsePitch(text) as Pitch;

describe('published: ISO 16:1975 — standard tuning frequency', () => {
  test('A4 is 440 Hz in every temperament on A', () => {
    expect(frequency(pitch('A4'), equal, 440)).toBe(440);
    expect(frequency(pitch('A4'), { kind: 'pythagorean' }, 440)).toBe(440);
    expect(frequency(pitch('A4'), { kind: 'just', tonic: { letter: 'A', alter: 0 } }, 440)).toBe(440);
  });
});

describe('published: R. W. Young, JASA 11, 1939 — octave numbers', () => {
  test('the octave number changes at C: middle C is C4, the note below it B3', () => {
    expect(semitone(pitch('C4')) - semitone(pitch('B3'))).toBe(1);
    expect(semitone(pitch('A4')) - semitone(pitch('C4'))).toBe(9);
    expect(frequency(pitch('C0'), equal, 440)).toBeCloseTo(16.352, 3);
  });
  test('an accidental never changes the number: Cb4 is B3, B#3 is C4', () => {
    expect(semitone(pitch('Cb4'))).toBe(semitone(pitch('B3')));
    expect(semitone(pitch('B#3'))).toBe(semitone(pitch('C4')));
  });
});

/** Equal-tempered scale, Hz, as printed there. */
const CRC: Readonly<Record<string, number>> = {
  C0: 16.352,
  'C#0': 17.324,
  D0: 18.354,
  'D#0': 19.445,
  E0: 20.602,
  F0: 21.827,
  C2: 65.406,
  'C#2': 69.296,
  D2: 73.416,
  'D#2': 77.782,
  E2: 82.407,
  F2: 87.307,
  C4: 261.63,
  'C#4': 277.18,
  D4: 293.66,
  'D#4': 311.13,
  E4: 329.63,
  F4: 349.23,
  C6: 1046.5,
  'C#6': 1108.73,
  D6: 1174.66,
  'D#6': 1244.51,
  E6: 1318.51,
  F6: 1396.91,
};

describe('published: CRC Handbook of Chemistry and Physics, section 14, table of the equal-tempered scale — frequencies', () => {
  test.each(Object.entries(CRC))('%s is %d Hz', (name, hz) => {
    // As many digits as are printed: five or six significant.
    expect(Math.abs(frequency(pitch(name), equal, 440) - hz)).toBeLessThan(hz < 100 ? 0.00051 : 0.0051);
  });
});

describe('published: MIDI 1.0 specification — note numbers (middle C is 60)', () => {
  test.each([
    ['C-1', 0],
    ['G3', 55],
    ['C4', 60],
    ['A4', 69],
    ['G9', 127],
  ])('%s is %i', (name, key) => {
    expect(semitone(pitch(name))).toBe(key);
    expect(pitchName(spell(key))).toBe(name);
  });
});
