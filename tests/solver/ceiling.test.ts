import { describe, expect, it } from 'vitest';
import { ceiling, chanceAt, cleanAt } from '../../server/solver/ceiling';
import { createSolver } from '../../server/solver/solve';
import { event, line, note, passage } from './build';

const SILENT = event([], { seconds: 0, rest: 1 });

describe('the fastest tempo', () => {
  it('is none of a passage in which something can not be played, or nothing sounds', () => {
    expect(ceiling(createSolver().solve(passage(line('A4 C2 E5'))), 0.01)).toBeUndefined();
    expect(ceiling(createSolver().solve(passage([SILENT])), 0.01)).toBeUndefined();
    expect(ceiling(createSolver().solve(passage([])), 0.01)).toBeUndefined();
  });

  it('is told in the beat of the first note, not of a rest before it', () => {
    const made = passage([SILENT, ...line('A4 E5')]);
    const [rest, ...notes] = made.events;
    const slow = { ...made, events: [{ ...rest!, tempo: { ...rest!.tempo, bpm: 48 } }, ...notes] };
    expect(ceiling(createSolver().solve(slow), 0.5)).toEqual(ceiling(createSolver().solve(made), 0.5));
  });

  it('leaves as much time for a note as the rest after it gives', () => {
    // Assumption of the model: 0.07 s a note.
    const open = (rest: number) => [event([note('A4')], { seconds: 0.04, rest }), event([note('E5')], { seconds: 0.5 })];
    expect(ceiling(createSolver().solve(passage(open(0.05))), 0.5)).toMatchObject({
      bpm: Math.floor((96 * 0.09) / 0.07),
      limit: 'left hand',
    });
    expect(ceiling(createSolver().solve(passage(open(0.08))), 0.5)!.bpm).toBe(Math.floor((96 * 0.12) / 0.07));
  });

  it('ends where a metronome does, and says that nothing limits it', () => {
    // Common practice, no source: a metronome's scale ends at 208.
    expect(ceiling(createSolver().solve(passage(line('A4 E5', { seconds: 0.625 }))), 0.8)).toMatchObject({
      bpm: 208,
      limit: 'none',
    });
  });

  it('says what limits it: harmonics that must speak, finger and bow, or the hand', () => {
    const limit = (text: string, seconds: number) => ceiling(createSolver().solve(passage(line(text, { seconds }))), 0.8)?.limit;
    expect(limit('A4<>D5 B4<>E5 A4<>D5', 0.3)).toBe('response');
    expect(limit('A4 B4 C#5 D5 C#5 B4 A4 B4 C#5 D5 C#5 B4', 0.15)).toBe('finger and bow');
  });

  it('holds for every stretch of a long passage, however many there are', () => {
    const scale = 'G3 A3 B3 C4 D4 E4 F#4 G4 A4 B4 C5 D5 E5 F#5 G5 A5';
    const times = (count: number) =>
      createSolver().solve(passage(Array.from({ length: count }, () => line(scale, { seconds: 0.15 })).flat()));
    const [short, long] = [times(3), times(20)];
    expect(long.clean).toBeLessThan(short.clean ** 5);
    expect(Math.abs(ceiling(long, 0.8)!.bpm - ceiling(short, 0.8)!.bpm)).toBeLessThan(12);
  });
});

describe('the chance at another tempo', () => {
  const solution = createSolver().solve(passage(line('D5 A5 E6o F#5 B6')));

  it.each([0.5, 1, 2, 3])('of the whole is that of all its notes together, %f times as fast', (times) => {
    const each = solution.events.map((_, at) => chanceAt(solution, at, times));
    const together = each.reduce((all, one) => all * one, 1);
    expect(cleanAt(solution)(times)).toBeCloseTo(together, 6);
    expect(together).toBeLessThan(1);
  });

  it('falls for every fingered note, and stays for an open string', () => {
    const mixed = createSolver().solve(
      passage([event([note('A4', { finger: 0 })]), ...line('B4 D6o'), event([note('E5', { finger: 0 })])]),
    );
    const falls = mixed.events.map((_, at) => chanceAt(mixed, at, 3) < chanceAt(mixed, at, 1));
    expect(falls).toEqual([false, true, true, false]);
  });
});
