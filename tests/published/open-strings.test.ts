import { describe, expect, test } from 'vitest';
import { buildInstrument } from '../../server/instrument/build';
import type { Family } from '../../server/instrument/instrument';
import { pitchName, semitone } from '../../server/music/pitch';
import { cents } from '../../server/music/temperament';

const instrument = (family: Family) => buildInstrument({ family, tuning: 'fifths', a4: 440 });

describe('published: W. Piston, Orchestration, 1955 (from memory) — the strings of violin, viola and cello', () => {
  test.each([
    ['violin', ['E5', 'A4', 'D4', 'G3']],
    ['viola', ['A4', 'D4', 'G3', 'C3']],
    ['cello', ['A3', 'D3', 'G2', 'C2']],
  ] as const)('%s: %s', (family, strings) => {
    expect(instrument(family).strings.map((string) => pitchName(string.pitch))).toEqual(strings);
  });
});

describe('derived: exact arithmetic, pure fifths 3:2 from A — open strings against equal temperament', () => {
  test.each([
    ['E', 1.955],
    ['A', 0],
    ['D', -1.955],
    ['G', -3.91],
    ['C', -5.865],
  ])('%s is %d cents off', (letter, off) => {
    const strings = (['violin', 'viola', 'cello'] as const)
      .flatMap((family) => instrument(family).strings)
      .filter((string) => string.pitch.letter === letter);
    expect(strings.length).toBeGreaterThan(0);
    for (const string of strings) {
      const equal = 440 * 2 ** ((semitone(string.pitch) - 69) / 12);
      expect(cents(string.hz / equal)).toBeCloseTo(off, 3);
    }
  });

  test.each(['violin', 'viola', 'cello'] as const)('neighbouring strings of a %s stand 3:2', (family) => {
    const { strings } = instrument(family);
    for (let index = 1; index < strings.length; index++) {
      expect((strings[index - 1]?.hz as number) / (strings[index]?.hz as number)).toBeCloseTo(1.5, 12);
    }
  });
});
