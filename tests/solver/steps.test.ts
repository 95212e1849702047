import { describe, expect, it } from 'vitest';
import type { EventSpec } from '../../server/passage/passage';
import { createSolver } from '../../server/solver/solve';
import { event, note, passage } from './build';

const solved = (...specs: EventSpec[]) =>
  createSolver()
    .solve(passage(specs))
    .events.map((one) => one!.fingering);
const wayOf = (fingering: ReturnType<typeof solved>[number] | undefined, index = 0) => {
  const { stringName, kind, stop, touch } = fingering!.ways[index]!;
  return { stringName, kind, finger: stop?.finger ?? touch?.finger };
};

describe('common practice, no source — a slide', () => {
  const first = event([note('C5', { string: 3, finger: 2 })]);

  it('stays on its string and its finger; without one, the next string is nearer', () => {
    expect(wayOf(solved(first, event([note('G5')]))[1]).stringName).toBe('II');
    const slid = solved(first, event([note('G5')], { slide: true }))[1];
    expect(wayOf(slid)).toEqual({ stringName: 'III', kind: 'stopped', finger: 2 });
  });

  it('of a double stop has both fingers stay', () => {
    const double = event([note('A4', { string: 3, finger: 3 }), note('C#5', { string: 2, finger: 2 })]);
    const [from, to] = solved(double, event([note('B4'), note('D#5')], { slide: true }));
    for (const index of [0, 1]) expect(wayOf(to, index)).toEqual(wayOf(from, index));
  });

  it('goes on up the string into a harmonic that has a point on either side, and down it where the melody falls', () => {
    const touched = (from: string, to: string) =>
      solved(event([note(from, { string: 1 })]), event([note(to, { string: 1, manner: 'natural' })], { slide: true }))[1]!
        .ways[0]!.touch!;
    expect(touched('B5', 'E7o')).toMatchObject({ k: 3, n: 4 });
    expect(touched('B6', 'E6o')).toMatchObject({ k: 1, n: 2 });
  });

  it('breaks where a hint asks for another string', () => {
    expect(wayOf(solved(first, event([note('E5', { string: 2 })], { slide: true }))[1]).stringName).toBe('II');
  });
});

describe('common practice, no source — a held note', () => {
  it('keeps its string, its finger and its place, whichever note of the double stop it is', () => {
    for (const pairs of [[[0, 1]], [[0, 0]]] as [number, number][][]) {
      const held = note('D5', { string: 2 });
      const second = pairs[0]![1] === 0 ? [note('D5'), note('F#5')] : [note('A4'), note('D5')];
      const [before, after] = solved(event([held]), event(second, { held: pairs }));
      expect(after?.ways[pairs[0]![1]]).toEqual(before?.ways[0]);
      expect(after?.hand).toEqual(before?.hand);
    }
  });

  it('on an open string leaves the hand free to move', () => {
    const low = event([note('A4', { string: 2 }), note('F#5', { string: 1, finger: 1 })]);
    const high = event([note('A4'), note('E6', { string: 1, finger: 1 })], { held: [[0, 0]] });
    const [before, after] = solved(low, high);
    expect(after?.ways[0]).toEqual(before?.ways[0]);
    expect(after!.hand.mm).toBeGreaterThan(before!.hand.mm + 50);
  });
});

describe('common practice, no source — an open string between two places', () => {
  it('is where the hand moves: it waits until the note before has sounded', () => {
    const [low, open, high] = solved(
      event([note('B4', { string: 2, finger: 1 })]),
      event([note('E5', { string: 1 })]),
      event([note('E6', { string: 1, finger: 1 })]),
    );
    expect(wayOf(open).kind).toBe('open');
    expect(open?.hand).toEqual(low?.hand);
    expect(high!.hand.mm).toBeGreaterThan(low!.hand.mm + 50);
  });
});
