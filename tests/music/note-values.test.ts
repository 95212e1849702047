import fc from 'fast-check';
import Fraction from 'fraction.js';
import { DurationValue } from 'tonal';
import { describe, expect, it } from 'vitest';
import { noteValues, type Signs, tupletOf } from '../../server/music/note-values';

const SIGNS: Signs = { longest: new Fraction(2), shortest: new Fraction(1, 64) };

/** `1/4..` for a doubly dotted quarter, `1/8 3:2` for a triplet eighth; what there is no sign for is `?` and its length. */
const written = (length: string, signs = SIGNS) =>
  noteValues(new Fraction(length), signs)
    .map(({ sign, dots, tuplet, length: lasts }) =>
      sign
        ? sign.toFraction() + '.'.repeat(dots) + (tuplet ? ` ${tuplet.notes}:${tuplet.inTimeOf}` : '')
        : `? ${lasts.toFraction()}`,
    )
    .join(' + ');

describe('note values', () => {
  it.each([
    ['breve', '2'],
    ['whole.', '1.'],
    ['whole', '1'],
    ['half..', '1/2..'],
    ['half.', '1/2.'],
    ['quarter..', '1/4..'],
    ['quarter.', '1/4.'],
    ['eighth', '1/8'],
    ['sixteenth.', '1/16.'],
    ['sixty-fourth', '1/64'],
  ])('what tonal calls %s is one note', (name, one) => {
    const { fraction } = DurationValue.get(name);
    expect(written(fraction.join('/'))).toBe(one);
  });

  it.each([
    ['5/8', '1/2 + 1/8'],
    ['9/16', '1/2 + 1/16'],
    ['13/16', '1/2. + 1/16'], // a doubly dotted half would be too long
    ['15/16', '1/2. + 1/8.'],
    ['1/12', '1/8 3:2'],
    ['1/6', '1/4 3:2'],
    ['1/4', '1/4'],
    ['5/12', '1/2 3:2 + 1/8 3:2'],
    ['3/20', '1/8. 5:4'],
    ['9/2', '2. + 1.'],
  ])('%s is written %s', (length, notes) => expect(written(length)).toBe(notes));

  it.each([
    ['3/128', '1/64 + ? 1/128'], // a dot would stand for half the shortest sign
    ['7/256', '1/64 + ? 3/256'],
    ['1/128', '? 1/128'],
    ['1/192', '? 1/192'],
  ])('%s, for which there is no sign short enough, is %s', (length, notes) => expect(written(length)).toBe(notes));

  it('last as long together as what they write, each as long as its sign, dots and tuplet say', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 300 }), fc.constantFrom(1, 3, 4, 5, 12, 28, 64, 96, 320), (n, d) => {
        const length = new Fraction(n, d);
        const values = noteValues(length, SIGNS);
        expect(values.reduce((sum, value) => sum.add(value.length), new Fraction(0)).equals(length)).toBe(true);
        for (const { sign, dots, tuplet, length: lasts } of values) {
          if (!sign) continue;
          // A dot adds half of what stands before it.
          const dotted = [sign, sign.div(2), sign.div(4)].slice(0, dots + 1).reduce((sum, part) => sum.add(part));
          expect(lasts.equals(tuplet ? dotted.mul(tuplet.inTimeOf, tuplet.notes) : dotted)).toBe(true);
        }
      }),
    );
  });
});

describe('common practice, no source — tuplets are written in the next shorter value', () => {
  it.each([
    ['1/12', '3:2'],
    ['1/20', '5:4'],
    ['3/28', '7:4'],
    ['1/36', '9:8'],
    ['1/44', '11:8'],
    ['1/60', '15:8'],
    ['1/68', '17:16'],
    ['1/3996', '999:512'],
  ])('%s is one of %s', (length, ratio) => {
    const { notes, inTimeOf } = tupletOf(new Fraction(length))!;
    expect(`${notes}:${inTimeOf}`).toBe(ratio);
  });

  it.each(['1/4', '3/8', '5', '1/4004'])('%s is of none', (length) => expect(tupletOf(new Fraction(length))).toBeUndefined());
});
