import { describe, expect, it } from 'vitest';
import type { NoteSpec } from '../../server/passage/passage';
import { createSolver } from '../../server/solver/solve';
import { event, note, passage, setup } from './build';

function unplayable(notes: readonly NoteSpec[], made = setup()) {
  const solution = createSolver().solve(passage([event([note('A4')]), event(notes), event([note('E5')])], made));
  expect(solution.clean).toBe(0);
  expect(solution.events[0]).toBeDefined();
  expect(solution.events[2]).toBeDefined();
  expect(solution.unplayables.map(({ event: at }) => at)).toEqual([1]);
  return solution.unplayables[0]!;
}

describe('why an event has no fingering', () => {
  it('names the fingers, the mm asked and the mm of the hand', () => {
    const { reason, relaxations } = unplayable([note('G#3<>D#4')], setup({ hand: 'small' }));
    expect(reason).toMatchObject({ kind: 'stretch', fingers: ['1', '4'], reach: 105 * 0.9 });
    // Derived: a third of the string above G#3 on the G string.
    expect((reason as { asked: number }).asked).toBeCloseTo((328 / 3) * 2 ** (-1 / 12), 0);
    expect(relaxations).toContainEqual({ kind: 'reach', fingers: ['1', '4'], reach: 104 });
  });

  it('tells pitches out of range, and the octave they can be had at', () => {
    const { reason, relaxations } = unplayable([note('F3')]);
    expect(reason).toEqual({ kind: 'out-of-range', note: 0 });
    expect(relaxations).toContainEqual({ kind: 'octaves', note: 0, by: 1 });
    // A fingered form names its places: there is no octave to move it by.
    const printed = unplayable([note('E3<>A3')]);
    expect(printed.reason).toEqual({ kind: 'out-of-range', note: 0 });
    expect(printed.relaxations.length).toBeGreaterThan(0);
    expect(new Set(printed.relaxations.map(({ kind }) => kind))).toEqual(new Set(['fingering']));
  });

  it('tells a harmonic that no node gives, and that it can be stopped', () => {
    const { reason, relaxations } = unplayable([note('A3o')]);
    expect(reason).toEqual({ kind: 'no-harmonic', note: 0 });
    expect(relaxations).toContainEqual({ kind: 'stopped', note: 0 });
  });

  it('tells which hint is in the way, and the nearest choices without it', () => {
    const { reason, relaxations } = unplayable([note('G3', { finger: 3 })]);
    expect(reason).toEqual({ kind: 'hints', note: 0, hints: ['finger'] });
    expect(relaxations[0]).toMatchObject({ kind: 'fingering', fingering: { ways: [{ kind: 'open', stringName: 'IV' }] } });
  });

  it('tells hints that rule each other out on the string', () => {
    const { reason } = unplayable([note('D6o', { string: 1, node: { k: 1, n: 4 } })]);
    expect(reason).toMatchObject({ kind: 'hints', hints: ['string'] });
  });

  it('tells a position that the fingers leave', () => {
    const { reason } = unplayable([note('B4', { position: 7, string: 2 })]);
    expect(reason).toEqual({ kind: 'hints', note: 0, hints: ['position', 'string'] });
  });

  describe('of a double stop, each note of which can be played by itself', () => {
    const pinned = (pins: { finger?: 1 | 4; position?: number }[]) => [
      note('E5', { string: 3, ...pins[0] }),
      note('B5', { string: 2, ...pins[1] }),
    ];
    const positionOf = (notes: readonly NoteSpec[]) =>
      createSolver().solve(passage([event(notes)])).events[0]?.fingering.hand.position as number;

    it('tells the hint that is in the way', () => {
      const { reason, relaxations } = unplayable(pinned([{ finger: 4 }, { finger: 1 }]));
      expect(reason).toEqual({ kind: 'hints', note: 0, hints: ['finger'] });
      expect(relaxations[0]).toMatchObject({ kind: 'fingering' });
    });

    it('tells all hints of a note where none alone is in the way', () => {
      const low = positionOf([note('E5', { string: 3, finger: 4 })]);
      const high = positionOf([note('B5', { string: 2, finger: 1 })]);
      expect(low).toBeLessThan(high - 1);
      const { reason } = unplayable(
        pinned([
          { finger: 4, position: low },
          { finger: 1, position: high },
        ]),
      );
      expect(reason).toEqual({ kind: 'hints', note: 0, hints: ['string', 'finger', 'position'] });
    });
  });

  it.each(['F2', 'F3', 'E8', 'B8', 'A3o', 'D3o'])('%s: offers the nearest octave that can be played, the lower first', (text) => {
    const plays = (octave: number) => {
      const moved = text.replace(/\d+/, (written) => String(Number(written) + octave));
      return createSolver().solve(passage([event([note(moved)])])).unplayables.length === 0;
    };
    const { relaxations } = unplayable([note(text)]);
    const nearest = [-1, 1, -2, 2, -3, 3].find(plays);
    const offered = relaxations.filter(({ kind }) => kind === 'octaves');
    expect(offered).toEqual(nearest === undefined ? [] : [{ kind: 'octaves', note: 0, by: nearest }]);
  });

  it('offers a harmonic for what lies past the fingerboard, and neither for what lies below the strings', () => {
    expect(unplayable([note('E8')]).relaxations).toContainEqual({ kind: 'harmonic', note: 0 });
    expect(unplayable([note('F3')]).relaxations.map(({ kind }) => kind)).toEqual(['octaves']);
  });

  it('tells two notes on one string, and strings that are not neighbours', () => {
    expect(unplayable([note('A3'), note('B3')]).reason).toEqual({ kind: 'same-string' });
    expect(unplayable([note('A3'), note('F#5', { string: 1 })]).reason).toMatchObject({ kind: 'not-neighbours' });
    expect(unplayable([note('B4', { string: 2 }), note('D5', { string: 2 })]).reason).toEqual({ kind: 'same-string' });
    expect(unplayable([note('E4', { string: 3 }), note('F#5', { string: 1 })]).reason).toEqual({ kind: 'not-neighbours' });
  });

  it('tells a held note that has to be let go, and plays on from there', () => {
    const held = [
      event([note('D5', { string: 2 })]),
      event([note('D5', { string: 3 })], { held: [[0, 0]] }),
      event([note('A4')]),
    ];
    const solution = createSolver().solve(passage(held));
    expect(solution.unplayables).toEqual([{ event: 1, reason: { kind: 'held' }, relaxations: [] }]);
    expect(solution.events.every(Boolean)).toBe(true);
  });

  it('has nothing to say of an empty passage', () => {
    const solution = createSolver().solve(passage([]));
    expect(solution).toMatchObject({ cost: 0, clean: 1, hardest: -1, unplayables: [], events: [] });
  });
});
