import { describe, expect, it } from 'vitest';
import { toNats } from '../../server/solver/cost';
import { EFFORT } from '../../server/solver/effort';
import { shapeTerms } from '../../server/solver/own';
import { isShape, shapeOf } from '../../server/solver/shape';
import { waysOf } from '../../server/solver/ways';
import { event, note, setup } from './build';

const VIOLIN = setup();

/** The height term, nats, of every way to touch a natural harmonic, by where it is touched, mm from the nut. */
function heights(pitch: string): readonly { readonly mm: number; readonly nats: number }[] {
  const asked = note(pitch);
  return waysOf(asked, VIOLIN).flatMap((way) => {
    const shape = shapeOf([way], VIOLIN);
    if (way.kind !== 'natural' || !way.touch || !isShape(shape)) return [];
    return [{ mm: way.touch.mm, nats: toNats(shapeTerms(shape, event([asked]), VIOLIN).height ?? 0) }];
  });
}

describe('the height of a harmonic', () => {
  it('costs by the 100 mm past the middle of the string, and nothing before it', () => {
    const middle = VIOLIN.instrument.length / 2;
    const all = ['A5o', 'A6o', 'E7o', 'E6o', 'B6o'].flatMap(heights);
    for (const { mm, nats } of all) expect(nats).toBeCloseTo((EFFORT.height * Math.max(0, mm - middle)) / 100, 5);
    expect(all.some(({ mm }) => mm < middle - 50)).toBe(true);
    expect(all.some(({ nats }) => nats > EFFORT.height / 2)).toBe(true);
  });
});
