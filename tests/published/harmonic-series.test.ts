import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import type { TouchInterval } from '../../grammar/tree';
import { doubleStopIntonation } from '../../server/instrument/beats';
import { buildInstrument } from '../../server/instrument/build';
import type { InstrumentString } from '../../server/instrument/instrument';
import { ARTIFICIAL_NODES, feelsLike, NODES, partialCents, partialSemitones, touchPlace } from '../../server/instrument/nodes';
import { semitonePlace, stopPlace } from '../../server/instrument/places';
import { parseInterval } from '../../server/music/interval';

const interval = (name: string): number => parseInterval(name)?.semitones as number;
const STRING = 328;

describe('derived: exact arithmetic — nodes of partials 2 to 8', () => {
  test('every fraction k/n in lowest terms, once each, in order from the nut', () => {
    const wanted = new Set<string>();
    for (let n = 2; n <= 8; n++) for (let k = 1; k < n; k++) wanted.add(new Fraction(k, n).toFraction());
    const found = NODES.map(({ k, n }) => `${k}/${n}`);
    expect([...found].sort()).toEqual([...wanted].sort());
    expect(found.every((text) => new Fraction(text).toFraction() === text)).toBe(true);
  });

  test('each is a rest of sin(n pi x) and of no lower partial', () => {
    for (const { k, n } of NODES) {
      expect(Math.abs(Math.sin((n * Math.PI * k) / n))).toBeLessThan(1e-12);
      for (let m = 1; m < n; m++) expect(Math.abs(Math.sin((m * Math.PI * k) / n))).toBeGreaterThan(0.1);
    }
  });

  test('touched from the bridge side a node lies as far from the bridge as its mirror from the nut', () => {
    for (const { k, n } of NODES) expect(touchPlace(0, STRING, k, n) + touchPlace(0, STRING, n - k, n)).toBeCloseTo(STRING, 10);
  });
});

describe('published: Wikipedia, «Harmonic», table of harmonics on stringed instruments — cents above the open string', () => {
  test.each([
    [2, 1200.0],
    [3, 1902.0],
    [4, 2400.0],
    [5, 2786.3],
    [6, 3102.0],
    [7, 3368.8],
    [8, 3600.0],
  ])('partial %i: %d cents', (n, value) => expect(partialCents(n)).toBeCloseTo(value, 1));

  test.each([
    [2, 0],
    [3, 1.955],
    [4, 0],
    [5, -13.686],
    [6, 1.955],
    [7, -31.174],
    [8, 0],
  ])('partial %i is %d cents off the piano', (n, off) => {
    expect(partialCents(n) - 100 * partialSemitones(n)).toBeCloseTo(off, 3);
  });
});

describe('published: Martens, Violin Mastery, 1919 (talk on harmonics) — where harmonics sound', () => {
  test.each([
    ['third', 'M3', 2, 'M3'],
    ['fourth', 'P4', 2, 'P1'],
    ['fifth', 'P5', 1, 'P5'],
    ['octave', 'P8', 1, 'P1'],
  ] as const)('artificial harmonic on the %s (%s): %i octaves and a %s above the pressed note', (name, touch, octaves, rest) => {
    const { k, n } = ARTIFICIAL_NODES[name];
    expect(feelsLike(k, n).semitones).toBe(interval(touch));
    expect(partialSemitones(n)).toBe(12 * octaves + interval(rest));
  });

  test('natural harmonics lie on the major triad of the open string: third, fifth, octave', () => {
    const sounding = new Set(NODES.filter(({ n }) => n <= 6).map(({ n }) => partialSemitones(n) % 12));
    expect([...sounding].sort((a, b) => a - b)).toEqual([0, interval('M3'), interval('P5')]);
  });
});

describe('published: orchestration handbooks (Piston, Orchestration, 1955; from memory) — touch intervals', () => {
  test.each([
    ['octave', 'P8', 12],
    ['fifth', 'P5', 19],
    ['fourth', 'P4', 24],
    ['third', 'M3', 28],
    ['minor-third', 'm3', 31],
    ['sixth', 'M6', 28],
  ] as const)('%s: feels like %s, sounds %i semitones up', (name, touch, sounds) => {
    const { k, n } = ARTIFICIAL_NODES[name];
    expect(feelsLike(k, n).semitones).toBe(interval(touch));
    expect(partialSemitones(n)).toBe(sounds);
  });
});

describe('derived: 328 mm string — equal-tempered finger place against the node', () => {
  test.each([
    ['fifth', -0.25],
    ['fourth', 0.28],
    ['third', 2.07],
    ['sixth', 1.77],
    ['minor-third', -2.48],
  ] as const)('%s: %d mm', (name, mm) => {
    const { k, n } = ARTIFICIAL_NODES[name];
    const { semitones, fingerOffset } = feelsLike(k, n, STRING);
    expect(fingerOffset).toBeCloseTo(mm, 2);
    expect(semitonePlace(STRING, semitones) - touchPlace(0, STRING, k, n)).toBeCloseTo(fingerOffset, 12);
  });
});

describe('derived: frames of the hand on the string', () => {
  const first = semitonePlace(STRING, 2);
  const stopped = STRING - first;
  test.each([
    ['octave frame in first position, touching the fourth', semitonePlace(STRING, 7) - first, 73],
    ['fifth harmonic there', touchPlace(first, stopped, 1, 3) - first, 97],
    ['minor tenth there, on two strings', semitonePlace(STRING, 2 + 15 - 7) - first, 108],
    ['major tenth there, on two strings', semitonePlace(STRING, 2 + 16 - 7) - first, 118],
    ['fourth harmonic an octave up', touchPlace(164, 164, 1, 4) - 164, 41],
    ['fifth harmonic an octave up', touchPlace(164, 164, 1, 3) - 164, 55],
    ['cello, fourth harmonic from the thumb at the octave', touchPlace(345, 345, 1, 4) - 345, 86],
  ])('%s: %d, about %d mm', (_, mm, about) => expect(Math.abs(mm - about)).toBeLessThanOrEqual(0.5));
});

describe('derived: exact arithmetic — both fingers barred over two strings a fifth apart', () => {
  const { strings, length } = buildInstrument({ family: 'violin', tuning: 'fifths', a4: 440 });
  const [upper, lower] = [strings[1]!, strings[2]!];
  /** Frequency of an artificial harmonic over a finger that stops `mm` from the nut. */
  const sounds = (string: InstrumentString, mm: number, name: TouchInterval): number =>
    (ARTIFICIAL_NODES[name].n * string.hz * length) / (length - mm);
  const stop = semitonePlace(length, 5);

  test('touching fourths on both sounds a fifth, 3:2', () => {
    expect(doubleStopIntonation(sounds(lower, stop, 'fourth'), sounds(upper, stop, 'fourth')).just).toMatchObject({
      upper: 3,
      lower: 2,
    });
  });
  test('lower third with upper fourth sounds a minor third, 6:5, without a beat', () => {
    const heard = doubleStopIntonation(sounds(lower, stop, 'third'), sounds(upper, stop, 'fourth'));
    expect(heard.just).toMatchObject({ upper: 6, lower: 5, name: 'm3' });
    expect(heard.beats).toBeCloseTo(0, 9);
  });
  test('lower fourth with an upper fourth stopped three semitones lower sounds a major third', () => {
    const nearer = stopPlace(length, upper.hz, upper.hz * 2 ** (2 / 12));
    expect(doubleStopIntonation(sounds(lower, stop, 'fourth'), sounds(upper, nearer, 'fourth')).just).toMatchObject({
      name: 'M3',
      octaves: 0,
    });
    // Stopped a pure minor third lower it is pure, 5:4.
    const pure = stopPlace(length, upper.hz, (upper.hz * 2 ** (5 / 12) * 5) / 6);
    expect(sounds(upper, pure, 'fourth') / sounds(lower, stop, 'fourth')).toBeCloseTo(5 / 4, 12);
  });
});

describe('common practice, no source — sounding pitch of the two usual artificial harmonics', () => {
  test('a fourth harmonic sounds two octaves above the stopped note', () => {
    expect(partialSemitones(ARTIFICIAL_NODES.fourth.n)).toBe(24);
  });
  test('a fifth harmonic sounds one octave above the touched note', () => {
    const { k, n } = ARTIFICIAL_NODES.fifth;
    expect(partialSemitones(n) - feelsLike(k, n).semitones).toBe(12);
  });
});
