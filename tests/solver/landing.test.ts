import { describe, expect, it } from 'vitest';
import { chanceWithin } from '../../server/hand/chance';
import { toNats } from '../../server/solver/cost';
import { missed, sharpness } from '../../server/solver/landing';

describe('what a finger that may miss costs', () => {
  it.each([0.4, 1, 3.7])('is minus the log of its chance, read to the precision stated, landing within %f mm', (error) => {
    for (let ratio = 0.44; ratio < 7; ratio += 0.0137) {
      const chance = chanceWithin(ratio * error, error);
      expect(chance).toBeGreaterThan(1 / 3);
      expect(Math.abs(toNats(missed(ratio * error, sharpness(error))) + Math.log(chance))).toBeLessThan(0.0005);
    }
  });

  it('grows as the room closes, and is nothing where no finger has to land', () => {
    const costs = [0.5, 0.1, 0.01, 0.001].map((tolerance) => missed(tolerance, sharpness(1)));
    expect(costs).toEqual([...costs].sort((a, b) => a - b));
    expect(toNats(costs.at(-1)!)).toBeGreaterThan(6);
    expect(missed(0, sharpness(1))).toBe(0);
  });
});
