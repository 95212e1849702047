import { describe, expect, it } from 'vitest';
import { SHIFT_SHARE, SHORTEST_MOVE } from '../../server/hand/constants';
import { toNats } from '../../server/solver/cost';
import { EFFORT } from '../../server/solver/effort';
import { hopCost, moveSeconds } from '../../server/solver/move';
import { event, note } from './build';

const lasting = (seconds: number, rest: number) => event([note('A4')], { seconds, rest });
/** One note a second, a rest counted with it. */
const LEISURE = lasting(0.6, 0.4);

// What each constant of EFFORT says of itself, at the distance, speed and time that it is given for.
describe('what a step costs, by the units of its constants', () => {
  it('the hand has all of an open note, a share of a fingered one, all of a rest, and never no time', () => {
    expect(moveSeconds(LEISURE, true)).toBeCloseTo(1, 9);
    expect(moveSeconds(LEISURE, false)).toBeCloseTo(0.6 * SHIFT_SHARE + 0.4, 9);
    expect(moveSeconds(lasting(0.001, 0), true)).toBe(SHORTEST_MOVE);
  });

  it('a finger that hops is dearer the quicker it must', () => {
    expect(toNats(hopCost(LEISURE))).toBeCloseTo(EFFORT.hop + EFFORT.hopSpeed, 5);
    expect(toNats(hopCost(lasting(0.15, 0.1)))).toBeCloseTo(EFFORT.hop + 4 * EFFORT.hopSpeed, 5);
    // No quicker than the shortest move there is, however short the note.
    expect(toNats(hopCost(lasting(0.001, 0)))).toBeCloseTo(EFFORT.hop + EFFORT.hopSpeed / SHORTEST_MOVE, 4);
  });
});
