import { Interval as Tonal, Key as TonalKey } from 'tonal';
import { Music } from 'vexflow';
import { describe, expect, test } from 'vitest';
import type { Letter } from '../../grammar/tree';
import { diatonic, INTERVALS, type Key, keyAlter, parseInterval, transposedBy } from '../../server/music/interval';
import { type Pitch, parsePitch, pitchName } from '../../server/music/pitch';

const pitch = (text: string): Pitch => parsePitch(text) as Pitch;
const key = (text: string, mode: Key['mode']): Key => ({ tonic: pitch(`${text}4`), mode });

/** What vexflow calls the intervals that it doesn't call as we do. */
const VEXFLOW: Readonly<Record<string, string>> = {
  P1: 'unison',
  P4: 'p4',
  A4: 'aug4',
  d5: 'dim5',
  P5: 'p5',
  m6: 'b6',
  P8: 'octave',
};

describe('intervals against tonal and vexflow, independent libraries', () => {
  test.each(INTERVALS)('%s', (name) => {
    const read = parseInterval(name);
    const reference = Tonal.get(name);
    expect(read).toEqual({ name, steps: reference.num - 1, semitones: reference.semitones });
    expect(new Music().getIntervalValue(VEXFLOW[name] ?? name)).toBe(read?.semitones);
  });

  test.each([
    ['M10', 9, 16],
    ['P12', 11, 19],
    ['P15', 14, 24],
    ['d2', 1, 0],
  ])('%s reaches past the octave', (name, steps, semitones) => expect(parseInterval(name)).toEqual({ name, steps, semitones }));

  test.each([
    '',
    'P3',
    'M5',
    'm4',
    '5P',
    'p5',
    'P0',
    'P05',
    'M16',
    'P100',
    '-P5',
    'P-5',
    'd1',
    'AA4',
    'X5',
    'P5 ',
    'P5x',
    'tritone',
  ])('%j is no interval', (text) => {
    expect(parseInterval(text)).toBeUndefined();
  });
});

describe('transposing', () => {
  test.each([
    ['D5', 'M2', 'up', 'E5'],
    ['D5', 'P4', 'down', 'A4'],
    ['B4', 'm2', 'up', 'C5'],
    ['C#5', 'M3', 'up', 'E#5'],
    ['B##5', 'M3', 'up', 'F6'], // D#### in full: spelled as the piano has it
    ['C5', 'P8', 'down', 'C4'],
  ] as const)('%s %s %s is %s', (from, by, direction, to) => {
    expect(pitchName(transposedBy(pitch(from), parseInterval(by)!, direction))).toBe(to);
  });
});

const letters: readonly Letter[] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

describe('keys against tonal', () => {
  test.each(['C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#', 'F', 'Bb', 'Eb', 'Ab', 'Db', 'Gb', 'Cb'])('%s major', (tonic) => {
    const scale = TonalKey.majorKey(tonic).scale;
    expect(
      letters.map((letter) => pitchName({ letter, alter: keyAlter(letter, key(tonic, 'major')), octave: 4 }).slice(0, -1)).sort(),
    ).toEqual([...scale].sort());
  });
  test.each(['A', 'E', 'B', 'F#', 'C#', 'D', 'G', 'C', 'F', 'Bb'])('%s minor', (tonic) => {
    const scale = TonalKey.minorKey(tonic).natural.scale;
    expect(
      letters.map((letter) => pitchName({ letter, alter: keyAlter(letter, key(tonic, 'minor')), octave: 4 }).slice(0, -1)).sort(),
    ).toEqual([...scale].sort());
  });
});

describe('letters without an accidental', () => {
  test.each(letters)('%s in C major and A minor is a plain 0', (letter) => {
    expect(keyAlter(letter, key('C', 'major'))).toBe(0); // -0 would not pass
    expect(keyAlter(letter, key('A', 'minor'))).toBe(0);
  });
});

describe('diatonic steps', () => {
  test.each([
    ['D5', 2, 'D', 'major', 'F#5'],
    ['B4', 2, 'D', 'major', 'D5'],
    ['F#5', -1, 'D', 'major', 'E5'],
    ['C5', -1, 'C', 'major', 'B4'],
    ['G4', 7, 'G', 'major', 'G5'],
    ['A4', 2, 'A', 'minor', 'C5'],
    ['F5', 1, 'D', 'major', 'Gb5'], // a half step low stays a half step low
    ['G#5', 1, 'D', 'major', 'A#5'],
    ['D5', 0, 'D', 'major', 'D5'],
    ['C#5', 2, 'C#', 'major', 'E#5'],
    ['G##4', 1, 'D', 'major', 'A##4'],
    ['G##4', -1, 'D', 'major', 'G#4'], // F### in full
    ['Abb4', 1, 'F', 'major', 'Ab4'], // Bbbb in full
  ] as const)('%s by %i in %s %s is %s', (from, steps, tonic, mode, to) => {
    expect(pitchName(diatonic(pitch(from), steps, key(tonic, mode)))).toBe(to);
  });
  test('there and back is where it was', () => {
    for (const from of ['D5', 'F5', 'Bb4', 'C#6'])
      for (let steps = -9; steps <= 9; steps++) {
        const there = diatonic(pitch(from), steps, key('Eb', 'major'));
        expect(diatonic(there, -steps, key('Eb', 'major'))).toEqual(pitch(from));
      }
  });
});
