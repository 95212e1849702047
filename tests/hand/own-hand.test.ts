import { describe, expect, it } from 'vitest';
import { namedHand } from '../../server/hand/hands';
import { type Comfort, ownHand } from '../../server/hand/own-hand';

const medium = namedHand('medium', 'violin');
const comfortable = (comfort: Comfort) => {
  const { reaches } = ownHand(medium, { comfort }, 328);
  return { '1-4': reaches['1-4']!.comfortable, '2-3': reaches['2-3']!.comfortable };
};

describe('what stays comfortable to a player', () => {
  it.each<[string, Comfort, number, number]>([
    ['a share of the most, for every pair', { kind: 'share', share: 0.8 }, 84, 40],
    ['mm where measured, as usual where not', { kind: 'measured', mm: { '1-4': 90 } }, 90, 28],
    ['never past the most', { kind: 'measured', mm: { '1-4': 300 } }, 105, 28],
    ['never closer than the fingers can stand', { kind: 'share', share: 0.1 }, 30, 8],
  ])('%s', (_, comfort, wide, narrow) => {
    const found = comfortable(comfort);
    expect(found['1-4']).toBeCloseTo(wide, 9);
    expect(found['2-3']).toBeCloseTo(narrow, 9);
  });

  it('changes neither the least nor the most, and nothing that the player did not speak of', () => {
    const { least, most } = ownHand(medium, { comfort: { kind: 'share', share: 0.8 } }, 328).reaches['1-4']!;
    expect([least, most]).toEqual([30, 105]);
    expect(ownHand(medium, {}, 328)).toEqual(medium);
  });
});
