import { describe, expect, test } from 'vitest';
import { buildInstrument } from '../../server/instrument/build';
import { NODES, touchPlace } from '../../server/instrument/nodes';
import { fingerOffset, stretchCents, stringHeight } from '../../server/instrument/offset';
import { centsPerMm } from '../../server/instrument/places';

const violin = buildInstrument({ family: 'violin', tuning: 'fifths', a4: 440 });

describe('common practice, no source — from a harmonic to a stopped note on one spot the finger moves slightly toward the nut', () => {
  test('on every string, at every node over the fingerboard, by more than half a finger and less than a finger and a half', () => {
    for (const string of violin.strings)
      for (const { k, n } of NODES) {
        const mm = touchPlace(0, violin.length, k, n);
        if (mm > violin.fingerboard) continue;
        const { edge, stretch, total } = fingerOffset(violin, string, mm);
        expect(edge).toBe(3.5);
        expect(stretch).toBeGreaterThan(0);
        expect(total).toBe(edge + stretch);
        expect(total).toBeLessThan(10.5);
      }
  });
});

test('the strings rise in a straight line from the nut to the end of the board', () => {
  const { height, fingerboard } = violin;
  expect(stringHeight(violin, 0)).toBe(height.nut);
  expect(stringHeight(violin, fingerboard)).toBeCloseTo(height.end, 9);
  expect(stringHeight(violin, fingerboard / 2)).toBeCloseTo((height.nut + height.end) / 2, 9);
});

describe('stretch', () => {
  test('is what the longer path of the pressed string adds in tension, by geometry', () => {
    const string = violin.strings[0]!;
    const mm = 164;
    const h = stringHeight(violin, mm);
    const longer = Math.hypot(mm, h) + Math.hypot(violin.length - mm, h) - violin.length;
    const tighter = string.axialStiffness * (longer / violin.length);
    const exact = 600 * Math.log2(1 + tighter / string.tension);
    expect(Math.abs(stretchCents(violin, string, mm) / exact - 1)).toBeLessThan(0.01);
  });
  test('is nothing at the nut and past the bridge', () => {
    expect(stretchCents(violin, violin.strings[0]!, 0)).toBe(0);
    expect(stretchCents(violin, violin.strings[0]!, violin.length)).toBe(0);
  });
  test('moving back by the offset in mm takes the cents away', () => {
    const string = violin.strings[1]!;
    const { stretch } = fingerOffset(violin, string, 109);
    expect(stretch * centsPerMm(violin.length - 109)).toBeCloseTo(stretchCents(violin, string, 109), 9);
  });
});
