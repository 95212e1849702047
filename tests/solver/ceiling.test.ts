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
    const open = [event([note('A4')], { seconds: 0.1, rest: 0.3 }), event([note('E5')], { seconds: 0.5 })];
    expect(ceiling(createSolver().solve(passage(open)), 0.5)?.bpm).toBe(Math.floor((96 * 0.4) / 0.07));
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

  it('falls for a note that the hand must move to, and stays for one that it need not', () => {
    const moved = solution.events.map((_, at) => chanceAt(solution, at, 3) < chanceAt(solution, at, 1));
    expect(moved[0]).toBe(false);
    expect(moved).toContain(true);
  });
});
