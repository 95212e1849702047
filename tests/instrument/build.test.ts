import { describe, expect, test } from 'vitest';
import { buildInstrument, canTune, knownSizes, LENGTHS, sizeLength, usualTuning } from '../../server/instrument/build';
import { FAMILIES } from '../../server/instrument/constants';
import { type Pitch, parsePitch, pitchName, semitone } from '../../server/music/pitch';
import { cents } from '../../server/music/temperament';
import { valueFrom } from '../../server/passage/values';

const FAMILY_NAMES = ['violin', 'viola', 'cello'] as const;
const pitches = (text: string): Pitch[] => text.split(' ').map((name) => parsePitch(name) as Pitch);
/** The size as a file writes it behind its instrument; any instrument that comes in it. */
function sizeOf(text: string): unknown {
  const read = FAMILY_NAMES.map((family) => valueFrom('instrument', `${family} ${text}`, 'violin'));
  return read.flatMap((one) => ('value' in one && one.value.size ? [one.value.size] : []))[0];
}
const off = (string: { pitch: Pitch; hz: number }): number => cents(string.hz / 440) - 100 * (semitone(string.pitch) - 69);

describe('sizes', () => {
  test('every known size builds, largest first, with a name that reads back', () => {
    for (const family of FAMILY_NAMES) {
      const lengths = knownSizes(family).map(
        (name) => buildInstrument({ family, size: { name }, tuning: 'fifths', a4: 440 }).length,
      );
      expect(lengths).toEqual([...lengths].sort((a, b) => b - a));
      for (const name of knownSizes(family)) expect(sizeOf(name)).toEqual({ name });
    }
  });
  test.each([
    ['3/4', { name: '3/4' }],
    [' 16 in ', { name: '16in' }],
    ['15.5"', { name: '15.5in' }],
    ['325mm', { mm: 325 }],
    ['327.5 mm', { mm: 327.5 }],
    ['325.25mm', { mm: 325.25 }],
    ['16 inches', { name: '16in' }],
    ['325mm long', undefined],
    ['16in long', undefined],
    ['a 3/4', undefined],
    ['big', undefined],
    ['3/4 mm', undefined],
  ])('%j reads as %j', (text, size) => expect(sizeOf(text)).toEqual(size));

  test('a size the family does not come in has no length', () => {
    expect(sizeLength('viola', { name: '3/4' })).toBeUndefined();
    expect(sizeLength('violin', { mm: LENGTHS.violin.most + 1 })).toBeUndefined();
    expect(sizeLength('violin', { name: 'constructor' })).toBeUndefined();
    expect(() => buildInstrument({ family: 'viola', size: { name: '3/4' }, tuning: 'fifths', a4: 440 })).toThrow(
      new RangeError('no viola of this size'),
    );
  });

  test.each([
    ['violin', 150, 350],
    ['viola', 280, 450],
    ['cello', 400, 760],
  ] as const)('a %s has strings of %i to %i mm', (family, least, most) => {
    expect(LENGTHS[family]).toEqual({ least, most });
    for (const mm of [least, most]) expect(sizeLength(family, { mm })).toBe(mm);
    for (const mm of [least - 0.5, most + 0.5]) expect(sizeLength(family, { mm })).toBeUndefined();
    for (const name of knownSizes(family)) {
      const mm = sizeLength(family, { name }) as number;
      expect(sizeLength(family, { mm })).toBe(mm);
    }
  });

  test('names are as players say them', () => {
    const name = (size?: { name: string } | { mm: number }) =>
      buildInstrument({ family: 'violin', ...(size ? { size } : {}), tuning: 'fifths', a4: 440 }).name;
    expect([name(), name({ name: '4/4' }), name({ name: '3/4' }), name({ mm: 325 })]).toEqual([
      'violin',
      'violin',
      'violin 3/4',
      'violin 325mm',
    ]);
  });

  test('shorter strings are slacker and stiffer', () => {
    const [full, small] = ['4/4', '1/2'].map((name) =>
      buildInstrument({ family: 'violin', size: { name }, tuning: 'fifths', a4: 440 }),
    );
    for (const [index, string] of (full?.strings ?? []).entries()) {
      const other = small?.strings[index];
      expect(other?.tension as number).toBeCloseTo(string.tension * (285 / 328), 6);
      expect(other?.inharmonicity as number).toBeGreaterThan(string.inharmonicity);
      expect(4 * (0.285 * (other?.hz as number)) ** 2 * ((other?.density as number) / 1000)).toBeCloseTo(
        other?.tension as number,
        9,
      );
    }
  });
});

describe('tuning', () => {
  test('equal tuning is equal', () => {
    for (const family of FAMILY_NAMES) {
      for (const string of buildInstrument({ family, tuning: 'equal', a4: 442 }).strings) {
        expect(cents(string.hz / 442)).toBeCloseTo(100 * (semitone(string.pitch) - 69), 9);
      }
    }
  });
  test('the usual open strings written out are the fifths tuning', () => {
    for (const family of FAMILY_NAMES) {
      expect(buildInstrument({ family, tuning: usualTuning(family), a4: 440 })).toEqual(
        buildInstrument({ family, tuning: 'fifths', a4: 440 }),
      );
    }
  });
  test.each([
    ['G3 D4 A4 D5', [-1.955, 0, -1.955, -3.91]],
    ['A3 E4 A4 E5', [1.955, 0, 1.955, 0]],
    ['A3 D4 A4 C#5', [0, 0, -1.955, 0]],
    ['G3 C#4 A4 E5', [1.955, 0, 0, 0]],
    ['F#3 C#4 G#4 D#5', [1.955, 0, -1.955, -3.91]],
    ['A3 D4 G4 E5', [1.955, -3.91, -1.955, 0]],
    ['G3 D4 G4 A5', [0, -3.91, -1.955, -3.91]],
  ])('scordatura %s: pure where an interval to tune by is there', (tuning, expected) => {
    const { strings } = buildInstrument({ family: 'violin', tuning: pitches(tuning), a4: 440 });
    expect(
      [...strings]
        .reverse()
        .map((string) => pitchName(string.pitch))
        .join(' '),
    ).toBe(tuning);
    for (const [index, string] of strings.entries()) expect(off(string)).toBeCloseTo(expected[index] as number, 3);
  });
  test('a string let down a tone is slacker by the square of its frequency, and stiffer for it', () => {
    const usual = buildInstrument({ family: 'violin', tuning: 'fifths', a4: 440 }).strings[3];
    const low = buildInstrument({ family: 'violin', tuning: pitches('F3 D4 A4 E5'), a4: 440 }).strings[3];
    const ratio = (low?.hz as number) / (usual?.hz as number);
    expect((low?.tension as number) / (usual?.tension as number)).toBeCloseTo(ratio ** 2, 9);
    expect((low?.inharmonicity as number) / (usual?.inharmonicity as number)).toBeCloseTo(ratio ** -2, 9);
  });
  test('tunings no set of strings could take are refused', () => {
    expect(canTune('violin', pitches('G3 D4 A4'))).toBe(false);
    expect(canTune('violin', pitches('G1 D4 A4 E5'))).toBe(false);
    // Seven semitones and no more.
    expect(canTune('violin', pitches('D4 D4 A4 E5'))).toBe(true);
    expect(canTune('violin', pitches('D#4 D4 A4 E5'))).toBe(false);
    expect(canTune('violin', pitches('C3 D4 A4 E5'))).toBe(true);
    expect(canTune('violin', pitches('B2 D4 A4 E5'))).toBe(false);
    expect(() => buildInstrument({ family: 'violin', tuning: pitches('G1 D4 A4 E5'), a4: 440 })).toThrow(
      new RangeError("a violin can't be tuned so"),
    );
    for (const a4 of [0, Number.POSITIVE_INFINITY])
      expect(() => buildInstrument({ family: 'violin', tuning: 'fifths', a4 })).toThrow(
        new RangeError('A4 must be a frequency above 0 Hz'),
      );
  });
});

describe('common practice, no source — measures of a workshop', () => {
  // Least and most in mm: neighbouring strings at the nut and at the bridge, the board, the highest strings over its end.
  test.each([
    ['violin', [5, 6], [11, 11.8], [265, 275], [3, 5.5]],
    ['viola', [5.2, 6.5], [11.8, 13], [295, 320], [4, 6.5]],
    ['cello', [7, 8], [15, 17], [560, 600], [5, 8.5]],
  ] as const)('%s', (family, nut, bridge, board, end) => {
    const { spacing, fingerboard, height } = buildInstrument({ family, tuning: 'fifths', a4: 440 });
    const measured = [spacing.nut, spacing.bridge, fingerboard, height.end];
    for (const [index, [least, most]] of [nut, bridge, board, end].entries()) {
      expect(measured[index]).toBeGreaterThanOrEqual(least);
      expect(measured[index]).toBeLessThanOrEqual(most);
    }
    expect(height.nut).toBeGreaterThan(0);
    expect(height.nut).toBeLessThan(1);
  });
  test('the thumb comes onto the strings of the cello alone', () => {
    expect(FAMILY_NAMES.filter((family) => buildInstrument({ family, tuning: 'fifths', a4: 440 }).thumb)).toEqual(['cello']);
  });
  test('the board is shorter in proportion on a smaller instrument', () => {
    const [full, small] = ['4/4', '1/2'].map((name) =>
      buildInstrument({ family: 'violin', size: { name }, tuning: 'fifths', a4: 440 }),
    );
    expect((small?.fingerboard as number) / (full?.fingerboard as number)).toBeCloseTo(285 / 328, 9);
  });
});

// H. Fletcher, JASA 36, 1964 (from memory): B = pi^2 EI / (T L^2); of a round core I = A r^2 / 4.
test('published: Fletcher 1964 — what a string resists in bending and in stretching comes of one core', () => {
  for (const family of FAMILY_NAMES) {
    const { strings, length } = buildInstrument({ family, tuning: 'fifths', a4: 440 });
    for (const [index, { axialStiffness, inharmonicity, tension }] of strings.entries()) {
      const radius = (FAMILIES[family].strings[index]?.radius as number) / 1000;
      const bending = (axialStiffness * radius ** 2) / 4;
      expect(inharmonicity / ((Math.PI ** 2 * bending) / (tension * (length / 1000) ** 2))).toBeCloseTo(1, 9);
    }
  }
});

test('every number of every family has a unit or source to its name', () => {
  for (const family of FAMILY_NAMES) {
    const data = FAMILIES[family];
    for (const source of [data.stringSource, data.sizeSource, data.bodySource, data.bridgeResistance.source])
      expect(source).not.toBe('');
    expect(data.bridgeResistance.unit).toBe('kg/s');
    expect(data.strings).toHaveLength(data.pitches.length);
  }
});
