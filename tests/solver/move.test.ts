import { describe, expect, it } from 'vitest';
import { SHIFT_SHARE, SHORTEST_MOVE } from '../../server/hand/constants';
import { toNats } from '../../server/solver/cost';
import { EFFORT } from '../../server/solver/effort';
import { bowCosts, hopCost, moveSeconds, shiftCost } from '../../server/solver/move';
import { event, note } from './build';

const lasting = (seconds: number, rest: number, more: { slurred?: boolean } = {}) =>
  event([note('A4')], { seconds, rest, ...more });
/** One note a second, a rest counted with it. */
const LEISURE = lasting(0.6, 0.4);

// What each constant of EFFORT says of itself, at the distance, speed and time that it is given for.
describe('what a step costs, by the units of its constants', () => {
  it.each([
    ['100 mm at one metre a second', 100, 0.1, EFFORT.shift + EFFORT.shiftFar + EFFORT.shiftSpeed],
    ['200 mm at two metres a second', 200, 0.1, EFFORT.shift + 2 * EFFORT.shiftFar + 4 * EFFORT.shiftSpeed],
    ['100 mm at a tenth of a metre a second', 100, 1, EFFORT.shift + EFFORT.shiftFar + EFFORT.shiftSpeed / 100],
    ['no move', 0, 0.1, 0],
  ])('a shift: %s', (_, distance, seconds, nats) => expect(toNats(shiftCost(distance, seconds))).toBeCloseTo(nats, 5));

  it('the hand has all of an open note, a share of a fingered one, all of a rest, and never no time', () => {
    expect(moveSeconds(LEISURE, true)).toBeCloseTo(1, 9);
    expect(moveSeconds(LEISURE, false)).toBeCloseTo(0.6 * SHIFT_SHARE + 0.4, 9);
    expect(moveSeconds(lasting(0.001, 0), true)).toBe(SHORTEST_MOVE);
  });

  it('the bow crosses by the string, quicker dearer, dearer again within a stroke', () => {
    const { crossing, skip } = bowCosts(2, LEISURE);
    expect(toNats(crossing)).toBeCloseTo(EFFORT.crossing + EFFORT.crossingSpeed, 5);
    expect(skip).toBe(0);
    expect(toNats(bowCosts(1, LEISURE).crossing)).toBeCloseTo((EFFORT.crossing + EFFORT.crossingSpeed) / 2, 5);
    expect(toNats(bowCosts(2, lasting(0.15, 0.1)).crossing)).toBeCloseTo(EFFORT.crossing + 4 * EFFORT.crossingSpeed, 5);
    const slurred = bowCosts(2, lasting(0.6, 0.4, { slurred: true }));
    expect(toNats(slurred.crossing)).toBeCloseTo(EFFORT.crossing + EFFORT.crossingSpeed + EFFORT.crossingSlurred, 5);
  });

  it('it pays for every string passed over', () => {
    expect(toNats(bowCosts(6, LEISURE).skip)).toBeCloseTo(2 * EFFORT.skip, 5);
    expect(toNats(bowCosts(4, lasting(0.6, 0.4, { slurred: true })).skip)).toBeCloseTo(EFFORT.skipSlurred, 5);
  });

  it('a finger that hops is dearer the quicker it must', () => {
    expect(toNats(hopCost(LEISURE))).toBeCloseTo(EFFORT.hop + EFFORT.hopSpeed, 5);
    expect(toNats(hopCost(lasting(0.15, 0.1)))).toBeCloseTo(EFFORT.hop + 4 * EFFORT.hopSpeed, 5);
  });
});
