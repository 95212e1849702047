import { cumulativeStdNormalProbability, errorFunction } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { chanceWithin, erf, landingError, missCost, stoppedTolerance } from '../../server/hand/chance';
import { measuredHand, namedHand } from '../../server/hand/hands';
import { handPlaces, inPosition, positionName, positionOf } from '../../server/hand/places';
import { opening, pairOf, reachOf } from '../../server/hand/reach';

describe('published: Abramowitz and Stegun, Handbook of Mathematical Functions, table 7.1 — error function', () => {
  it.each([
    [0, 0],
    [0.5, 0.5204998778],
    [1, 0.8427007929],
    [1.5, 0.9661051465],
    [2, 0.995322265],
    [3, 0.999977909503],
  ])('erf(%f)', (x, value) => expect(erf(x)).toBeCloseTo(value, 9));
});

describe('chance of landing', () => {
  it('agrees with a statistics library', () => {
    for (let x = 0.05; x < 3; x += 0.17) {
      expect(erf(x)).toBeCloseTo(errorFunction(x), 4);
      // Their table of the normal distribution is to four places.
      expect(chanceWithin(x, 1)).toBeCloseTo(2 * cumulativeStdNormalProbability(x) - 1, 2);
    }
  });

  it('reads minus its log from a table, within the error it states', () => {
    for (let ratio = 0.05; ratio < 7; ratio += 0.0137) {
      expect(Math.abs(missCost(ratio, 1) + Math.log(chanceWithin(ratio, 1)))).toBeLessThan(ratio < 0.5 ? 1e-4 : 1e-6);
    }
    expect(missCost(0, 1)).toBe(Number.POSITIVE_INFINITY);
    expect(missCost(1e-30, 1)).toBe(60);
  });

  it('grows with distance and shrinks with time', () => {
    const hand = namedHand('medium', 'violin');
    expect(landingError(hand, 0, 0.1)).toBe(1);
    expect(landingError(hand, 100, 0.2)).toBeCloseTo(Math.hypot(1, 1), 9);
    expect(landingError(hand, 100, 0.1)).toBeGreaterThan(landingError(hand, 50, 0.1));
    expect(landingError({ ...hand, landing: { still: 2, shift: 0.004 } }, 100, 0.2)).toBeCloseTo(Math.hypot(2, 2), 9);
  });

  it('gives a stopped note 15 cents: 1731 / l cents to the mm', () => {
    expect(stoppedTolerance(namedHand('medium', 'violin'), 328)).toBeCloseTo((15 * 328) / 1731.234, 3);
  });
});

describe('reach', () => {
  const hand = namedHand('medium', 'violin');

  it('has the reaches of a medium adult hand that the model assumes: least, comfortable, most', () => {
    const rows = Object.entries(hand.reaches).map(
      ([pair, { least, comfortable, most }]) => `${pair} ${least}/${comfortable}/${most}`,
    );
    expect(rows.join(', ')).toBe('1-2 12/36/55, 1-3 25/58/78, 1-4 30/76/105, 2-3 8/28/50, 2-4 25/52/78, 3-4 8/28/48');
  });

  it('covers on the cello a minor third closed and a major third open, first to fourth finger in first position', () => {
    // Derived: from two to five and to six semitones up a 690 mm string. Common practice, no source.
    const between = (low: number, high: number) => 690 * (2 ** (-low / 12) - 2 ** (-high / 12));
    const { comfortable, most } = namedHand('medium', 'cello').reaches['1-4']!;
    expect(comfortable).toBeGreaterThan(between(2, 5));
    expect(comfortable).toBeLessThan(between(2, 6));
    expect(most).toBeGreaterThan(between(2, 6));
    for (const { least, comfortable: ease, most: limit } of Object.values(namedHand('medium', 'cello').reaches)) {
      expect(least).toBeLessThan(ease);
      expect(ease).toBeLessThan(limit);
    }
  });

  it('opens from comfortable to the most there is, and no further', () => {
    const reach = reachOf(hand, 1, 4)!;
    expect(opening(reach, 76, 0)).toBe(0);
    expect(opening(reach, 90.5, 0)).toBeCloseTo(0.5, 9);
    expect(opening(reach, 105, 0)).toBe(1);
    expect(opening(reach, 105.1, 0)).toBe(Number.POSITIVE_INFINITY);
    expect(opening(reach, 29, 0)).toBe(Number.POSITIVE_INFINITY);
    expect(opening(reach, -5, 20)).toBe(0);
    expect(opening(reach, -11, 20)).toBe(Number.POSITIVE_INFINITY);
  });

  it('names pairs with the lower finger first, the thumb lowest', () => {
    expect(pairOf(4, 1)).toEqual({ pair: '1-4', swapped: true });
    expect(pairOf('T', 3)).toEqual({ pair: 'T-3', swapped: false });
    expect(pairOf(2, 2)).toBeUndefined();
    expect(reachOf(hand, 'T', 1)).toBeUndefined();
  });

  it('is a medium hand where nothing was measured', () => {
    expect(measuredHand({}, 'violin').reaches).toEqual(namedHand('medium', 'violin').reaches);
  });

  it('scales a hand by what was measured', () => {
    const measured = measuredHand({ '1-4': 126 }, 'violin');
    expect(measured.reaches['1-4']).toEqual({ least: 30, comfortable: 76 * 1.2, most: 126 });
    expect(measured.reaches['2-3']!.most).toBeCloseTo(60, 9);
    expect(namedHand('small', 'cello').reaches['T-3']!.most).toBeCloseTo(142 * 0.9, 9);
  });
});

describe('common practice, no source — positions', () => {
  it('counts them by the first finger over the open string', () => {
    const semitones = (n: number) => positionOf(n - 1);
    expect([1, 2, 4, 5, 7, 9, 11, 12, 14].map(semitones)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
  });

  it('lets a place between two positions be either', () => {
    expect(inPosition(5, 4)).toBe(true);
    expect(inPosition(5, 3)).toBe(true);
    expect(inPosition(5, 5)).toBe(false);
  });

  it('lies by semitones, an octave at half the string', () => {
    const places = handPlaces(328);
    expect(places[11]).toBeCloseTo(164, 9);
    expect(places).toHaveLength(36);
  });

  it('says them as players do', () => {
    expect([0, 1, 2, 3, 4, 11, 12, 13, 21].map(positionName)).toEqual([
      'half',
      '1st',
      '2nd',
      '3rd',
      '4th',
      '11th',
      '12th',
      '13th',
      '21st',
    ]);
  });
});
