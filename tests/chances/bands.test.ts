import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/parse';
import { ownHand } from '../../server/hand/own-hand';
import type { Level } from '../../server/hand/skill';
import type { Family } from '../../server/instrument/instrument';
import { resolve } from '../../server/passage/resolve';
import { ceiling, cleanAt } from '../../server/solver/ceiling';
import { EXERCISES, exerciseText } from './exercises';
import { FAMILIES, LEVELS, type Row, rows, solved, solver, TEMPOS } from './table';

/**
 * What players know of scales, double stops and harmonics. The bands are common practice, no source: wide enough that teachers
 * would argue within them, not about them. `npm run chances` prints the table.
 */

const TABLE = rows();

function row(family: Family, level: Level, exercise: string, value: string): Row {
  return TABLE.find(
    (one) => one.family === family && one.level === level && one.exercise === exercise && one.value === value,
  ) as Row;
}

/** A ceiling as a number: nothing where no tempo is slow enough. */
const fastest = ({ ceiling: found }: Row) => found?.bpm ?? 0;

describe('common practice, no source — chances and tempos that a player believes', () => {
  it.each(FAMILIES)('a professional on the %s plays three octaves in sixteenths at 100, and not at any tempo', (family) => {
    const three = row(family, 'professional', 'scale, 3 octaves', '1/16');
    expect(three.clean[100]).toBeGreaterThan(0.8);
    expect(fastest(three)).toBeGreaterThan(110);
    expect(fastest(three)).toBeLessThan(180);
    expect(three.clean[60]).toBeGreaterThan(0.95);
  });

  it.each(FAMILIES)(
    'a student on the %s plays three octaves in eighths at 60, and about every other time in sixteenths at 100',
    (family) => {
      const eighths = row(family, 'student', 'scale, 3 octaves', '1/8');
      expect(eighths.clean[60]).toBeGreaterThan(0.7);
      const sixteenths = row(family, 'student', 'scale, 3 octaves', '1/16');
      expect(sixteenths.clean[100]).toBeGreaterThan(0.3);
      expect(sixteenths.clean[100]).toBeLessThan(0.75);
      expect(fastest(sixteenths)).toBeGreaterThan(25);
      expect(fastest(sixteenths)).toBeLessThan(90);
    },
  );

  it('every exercise is playable at some tempo, by everybody', () => {
    for (const one of TABLE) expect(fastest(one), `${one.family} ${one.level} ${one.exercise} ${one.value}`).toBeGreaterThan(10);
  });

  it('no ceiling is one that no metronome has', () => {
    for (const one of TABLE) expect(fastest(one)).toBeLessThanOrEqual(208);
  });

  it.each(FAMILIES)('a slow melody on the %s is all but certain', (family) => {
    expect(row(family, 'student', 'slow melody', '1/4').clean[60]).toBeGreaterThan(0.95);
    expect(row(family, 'professional', 'slow melody', '1/4').clean[60]).toBeGreaterThan(0.99);
  });

  it.each(FAMILIES)('artificial harmonics on the %s end sooner than stopped notes, double ones sooner still', (family) => {
    for (const level of LEVELS) {
      const ends = ['scale, one octave', 'artificial harmonics', 'double harmonics'].map((exercise) =>
        fastest(row(family, level, exercise, '1/16')),
      );
      expect(ends, level).toEqual([...ends].sort((a, b) => b - a));
      expect(fastest(row(family, level, 'artificial harmonics', '1/8'))).toBeLessThan(
        fastest(row(family, level, 'scale, one octave', '1/8')),
      );
      // In eighths a player of artificial harmonics gets to a walking tempo, not to a virtuoso's.
      expect(fastest(row(family, level, 'artificial harmonics', '1/8'))).toBeGreaterThan(40);
      expect(fastest(row(family, level, 'artificial harmonics', '1/8'))).toBeLessThan(130);
    }
  });

  it.each(FAMILIES)('natural harmonics on the %s are sure at leisure and a risk at speed', (family) => {
    const [eighths, sixteenths] = ['1/8', '1/16'].map((value) => row(family, 'professional', 'natural harmonics', value));
    expect(eighths!.clean[60]).toBeGreaterThan(0.95);
    expect(sixteenths!.clean[140]).toBeLessThan(0.6);
  });

  it.each(FAMILIES)('octaves and thirds on the %s are a student’s slow practice and a professional’s quick one', (family) => {
    for (const exercise of ['octaves', 'thirds']) {
      expect(row(family, 'professional', exercise, '1/8').clean[60]).toBeGreaterThan(0.85);
      expect(fastest(row(family, 'professional', exercise, '1/16'))).toBeGreaterThan(40);
      expect(fastest(row(family, 'professional', exercise, '1/16'))).toBeLessThan(140);
      expect(fastest(row(family, 'student', exercise, '1/8'))).toBeGreaterThan(25);
      expect(fastest(row(family, 'student', exercise, '1/8'))).toBeLessThan(80);
    }
  });
});

describe('what must be so, whatever the numbers', () => {
  it('a student is below an advanced player, who is below a professional', () => {
    for (const family of FAMILIES) {
      for (const { name, values } of EXERCISES) {
        for (const value of values) {
          const each = LEVELS.map((level) => row(family, level, name, value));
          for (const bpm of TEMPOS) {
            const chances = each.map(({ clean }) => clean[bpm]!);
            expect(chances, `${family} ${name} ${value} at ${bpm}`).toEqual([...chances].sort((a, b) => a - b));
          }
          const ends = each.map(fastest);
          expect(ends, `${family} ${name} ${value}`).toEqual([...ends].sort((a, b) => a - b));
        }
      }
    }
  });

  it('slower is never worse, as fingered', () => {
    for (const family of FAMILIES) {
      for (const exercise of EXERCISES) {
        const clean = cleanAt(solved(exerciseText(exercise, family, 'advanced', 100, exercise.values[0]!)));
        let before = 1;
        for (let times = 0.1; times < 3; times *= 1.1) {
          expect(clean(times), `${family} ${exercise.name}, ${times} times as fast`).toBeLessThanOrEqual(before + 1e-12);
          before = clean(times);
        }
      }
    }
  });

  it.each([
    'level: student\ntempo: 1/4 = 72\n1/4 D4 E4 F#4 G4 A4 B4 C#5 D5 1/2 A4 F#4 1/1 D4',
    'instrument: violin 1/4\nlevel: student\ntempo: 1/4 = 60\n1/4 A4 B4 C#5 D5 E5 D5 C#5 B4 1/1 A4',
    'instrument: viola\nlevel: student\ntempo: 1/4 = 60\n1/4 G3 A3 B3 C4 D4 C4 B3 A3 1/1 G3',
    'instrument: cello 1/2\nlevel: student\ntempo: 1/4 = 60\n1/4 D3 E3 F#3 G3 A3 G3 F#3 E3 1/1 D3',
  ])('a study for beginners is clean as written, nearly always: %s', (text) => {
    const solution = solved(text);
    expect(solution.clean).toBeGreaterThan(0.9);
    expect(ceiling(solution, 0.8)).toBeDefined();
  });

  it('what a player has measured moves the chance of a passage the way it should, and its fastest tempo', () => {
    const ends = [3, 2, 1].map((mm) => {
      const passage = resolve(parse('tempo: 1/4 = 100\n1/16 G4 A4 B4 C5 D5 E5 F#5 G5 A5 B5 C6 D6')).passages[0]!;
      const { setup } = passage;
      const hand = ownHand(setup.hand, { accuracy: { still: mm } }, setup.instrument.length);
      const solution = solver.solve({ ...passage, setup: { ...setup, hand } });
      return [solution.clean, ceiling(solution, 0.8)?.bpm ?? 0] as const;
    });
    for (const of of [0, 1] as const) {
      const values = ends.map((end) => end[of]);
      expect(values).toEqual([...values].sort((a, b) => a - b));
      expect(new Set(values).size).toBe(3);
    }
  });

  it.each(['A3+C5 B3+D5 C4+E5 B3+D5 A3+C5', 'A3+A4 B3+B4 C4+C5 D4+D5', 'A3<>E4 B3<>F#4 C4<>G4'])(
    'a larger hand is never slower or less sure where reach is what limits: %s',
    (notes) => {
      const ends = ['small', 'medium', 'large'].map((hand) => solved(`hand: ${hand}\ntempo: 1/4 = 60\n1/8 ${notes}`));
      const chances = ends.map(({ clean }) => clean);
      expect(chances).toEqual([...chances].sort((a, b) => a - b));
      const tempos = ends.map((solution) => ceiling(solution, 0.8)?.bpm ?? 0);
      expect(tempos).toEqual([...tempos].sort((a, b) => a - b));
    },
  );
});
