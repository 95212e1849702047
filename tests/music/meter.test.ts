import Fraction from 'fraction.js';
import { TimeSignature } from 'tonal';
import { describe, expect, it } from 'vitest';
import { beamGroupOf, type Meter, pulseOf } from '../../server/music/meter';

const meter = (text: string): Meter => {
  const [count, unit] = text.split('/').map(Number) as [number, number];
  return { count, unit };
};

describe('what is counted as one', () => {
  it.each(['2/2', '3/2', '2/4', '3/4', '4/4', '6/4', '3/8', '4/8', '5/8', '6/8', '7/8', '9/8', '12/8'])(
    '%s: three units where tonal calls the meter compound, else one',
    (text) => {
      const units = TimeSignature.get(text).type === 'compound' ? 3 : 1;
      expect(pulseOf(meter(text)).equals(new Fraction(units, meter(text).unit))).toBe(true);
    },
  );

  it('9/16 in three, which tonal does not know as compound. Common practice, no source', () => {
    expect(pulseOf(meter('9/16')).toFraction()).toBe('3/16');
  });
});

describe('what is beamed together. Common practice, no source', () => {
  it.each([
    ['2/2', '1/2'],
    ['4/4', '1/4'],
    ['3/8', '3/8'],
    ['6/8', '3/8'],
    ['5/8', '1/4'], // one eighth is counted, but beamed alone it would be no beam
    ['9/16', '1/4'],
  ])('in %s groups of %s', (text, group) => expect(beamGroupOf(meter(text)).toFraction()).toBe(group));

  it('quarters without a meter', () => expect(beamGroupOf(undefined).toFraction()).toBe('1/4'));
});
