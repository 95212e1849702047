import { cumulativeStdNormalProbability, errorFunction } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { chanceWithin, erf } from '../../server/hand/chance';
import { childHand, childScale, fingerPairs, handWords, measuredHand, namedHand, usualHand } from '../../server/hand/hands';
import { handPlaces, inPosition, nearestPlace, placeName, positionName, positionOf } from '../../server/hand/places';
import { opening, pairOf, reachOf } from '../../server/hand/reach';

describe('published: Abramowitz and Stegun, Handbook of Mathematical Functions, table 7.1 — error function', () => {
  it.each([
    [0, 0],
    [0.5, 0.5204998778],
    [1, 0.8427007929],
    [1.5, 0.9661051465],
    [2, 0.995322265],
    [3, 0.999977909503],
    [6, 1],
    [30, 1],
    [Number.POSITIVE_INFINITY, 1],
  ])('erf(%f)', (x, value) => expect(erf(x)).toBeCloseTo(value, 9));

  it('begins as 2 / sqrt(pi) x (7.1.5)', () => expect(erf(1e-9) / 1e-9).toBeCloseTo(2 / Math.sqrt(Math.PI), 12));

  it('is the same from the series and from the continued fraction, where one gives way to the other', () => {
    const slope = (2 / Math.sqrt(Math.PI)) * Math.exp(-4);
    expect(erf(2) - erf(2 - 1e-6)).toBeCloseTo(slope * 1e-6, 11);
  });
});

describe('published: tables of the normal distribution (from memory) — share within so many standard deviations', () => {
  it.each([
    [1, 0.6826894921],
    [1.959963985, 0.95],
    [2, 0.9544997361],
    [3, 0.9973002039],
  ])('%f', (deviations, share) => {
    for (const error of [0.5, 1, 2.4]) expect(chanceWithin(deviations * error, error)).toBeCloseTo(share, 9);
  });
});

describe('chance of landing', () => {
  it('agrees with a statistics library', () => {
    for (let x = 0.05; x < 3; x += 0.17) {
      expect(erf(x)).toBeCloseTo(errorFunction(x), 4);
      // Their table of the normal distribution is to four places.
      expect(chanceWithin(x, 1)).toBeCloseTo(2 * cumulativeStdNormalProbability(x) - 1, 2);
    }
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
  });

  it('measures between two strings along the straight line: 60 mm along and 45 mm across are 75 mm', () => {
    const reach = { least: 8, comfortable: 70, most: 80 };
    expect(opening(reach, 60, 45)).toBeCloseTo(0.5, 9);
  });

  it('closes to the least there is, on two strings to fingers a little crossed, and no further', () => {
    const reach = reachOf(hand, 1, 4)!;
    expect(opening(reach, 30, 0)).toBe(0);
    expect(opening(reach, 29.9, 0)).toBe(Number.POSITIVE_INFINITY);
    expect(opening(reach, -10, 20)).toBe(0);
    expect(opening(reach, -10.1, 20)).toBe(Number.POSITIVE_INFINITY);
  });

  it('is at ease at the most there is, for a player who says that all of it is comfortable', () => {
    expect(opening({ least: 30, comfortable: 105, most: 105 }, 105, 0)).toBe(0);
  });

  it('knows the thumb on the cello only', () => {
    expect(fingerPairs('violin')).toEqual(['1-2', '1-3', '1-4', '2-3', '2-4', '3-4']);
    expect(fingerPairs('cello')).toEqual([...fingerPairs('violin'), 'T-1', 'T-2', 'T-3']);
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
    // A hand like the medium one here and 1.2 times it there is taken for 1.1 times it elsewhere.
    const twice = measuredHand({ '1-2': 55, '1-4': 126 }, 'violin');
    expect(twice.reaches['1-2']).toEqual({ least: 12, comfortable: 36, most: 55 });
    expect(twice.reaches['2-3']!.most).toBeCloseTo(55, 9);
    expect(namedHand('small', 'cello').reaches['T-3']!.most).toBeCloseTo(150 * 0.9, 9);
  });
});

describe("published: U.S. Department of Health, Education, and Welfare survey and NASA (hand lengths as quoted by Healthline) — children's hands", () => {
  // Middles of the 5th to 95th percentile, inches, boys and girls; adults' means.
  const adult = (7.6 + 6.8) / 2;
  const middles = { 6: [(4.6 + 5.7) / 2, (4.4 + 5.7) / 2], 11: [(5.5 + 6.8) / 2, (5.6 + 7.0) / 2] } as const;

  it.each([6, 11] as const)('at %i years', (age) => {
    const [boys, girls] = middles[age];
    expect(childScale(age)).toBeCloseTo((boys + girls) / 2 / adult, 2);
  });
});

describe('published: Annals of Anatomy 192 (2010), 156-161, abstract — fingers of children', () => {
  it('are 37 % longer at ten than at three', () => expect(childScale(10) / childScale(3)).toBeCloseTo(1.37, 1));
});

describe("children's hands", () => {
  it('are never longer than an adult hand, and can close to less', () => {
    for (let age = 3; age <= 15; age++) expect(childScale(age)).toBeLessThanOrEqual(1);
    const child = childHand(7, 'violin');
    const adult = namedHand('medium', 'violin');
    expect(child.reaches['1-4']!.most).toBeCloseTo(adult.reaches['1-4']!.most * childScale(7), 9);
    expect(child.reaches['2-3']!.least).toBeLessThan(adult.reaches['2-3']!.least);
    expect(child.name).toBe('child 7');
  });

  it('come with the fractional sizes', () => {
    expect(usualHand('violin', '1/2')).toEqual({ kind: 'child', age: 9 });
    expect(usualHand('violin', '4/4')).toEqual({ kind: 'named', name: 'medium' });
    expect(usualHand('cello', '7/8')).toEqual({ kind: 'named', name: 'small' });
    expect(usualHand('viola', '15in')).toEqual({ kind: 'named', name: 'medium' });
  });

  it('reach the octave frame of the size they come with in first position, though not much more', () => {
    // Derived: first finger two semitones up, fourth seven.
    const frame = (length: number) => length * (2 ** (-2 / 12) - 2 ** (-7 / 12));
    for (const [size, length] of Object.entries({ '3/4': 307, '1/2': 285, '1/4': 259, '1/8': 232, '1/16': 208 })) {
      const choice = usualHand('violin', size);
      const { comfortable, most } = childHand(choice.kind === 'child' ? choice.age : 99, 'violin').reaches['1-4']!;
      expect(most).toBeGreaterThan(frame(length));
      expect(comfortable).toBeGreaterThan(frame(length) * 0.9);
    }
  });

  it('are spoken of by age', () => {
    expect(handWords('child 7')).toBe('hand of a child of 7');
    expect(handWords('medium')).toBe('medium hand');
  });
});

describe('the viola', () => {
  it('has its octave frame in first position within comfort, as the violin has, and the hand itself no larger', () => {
    const [violin, viola] = [namedHand('medium', 'violin'), namedHand('medium', 'viola')];
    expect(viola.reaches['1-4']!.comfortable).toBeGreaterThan(374 * (2 ** (-2 / 12) - 2 ** (-7 / 12)));
    for (const pair of fingerPairs('viola')) {
      expect(viola.reaches[pair]!.comfortable).toBeGreaterThan(violin.reaches[pair]!.comfortable);
      expect(viola.reaches[pair]!.most).toBe(violin.reaches[pair]!.most);
    }
  });
});

describe('common practice, no source — positions', () => {
  it('on violin and viola a hand place is a position: its first finger on that step of the scale', () => {
    for (const family of ['violin', 'viola'] as const) {
      expect([0, 1, 2, 3, 8].map((place) => positionOf(place, family))).toEqual([0, 1, 2, 3, 8]);
      expect(inPosition(3, 3, family)).toBe(true);
      expect(inPosition(3, 4, family)).toBe(false);
      const places = handPlaces({ family, length: 328 });
      // An octave up the string, half of it is left.
      expect(places[7]).toBeCloseTo(164, 9);
    }
  });

  it('on the cello it is a semitone, an octave at half the string', () => {
    const places = handPlaces({ family: 'cello', length: 690 });
    expect(places[11]).toBeCloseTo(345, 9);
    expect(places).toHaveLength(36);
  });

  it('finds the place that a finger is nearest to, the lower of two', () => {
    const places = handPlaces({ family: 'violin', length: 328 });
    for (const [i, place] of places.entries()) {
      expect(nearestPlace(places, place - 1)).toBe(i);
      expect(nearestPlace(places, place + 1)).toBe(i);
    }
    expect(nearestPlace(Float64Array.of(20, 40), 30)).toBe(0);
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

describe("common practice, no source — a cellist's positions", () => {
  it('have a number for every letter, lower and upper where two places share it', () => {
    const names = Array.from({ length: 12 }, (_, place) => placeName(place, 'cello'));
    expect(names).toEqual([
      'half',
      '1st',
      'lower 2nd',
      'upper 2nd',
      '3rd',
      'upper 3rd',
      '4th',
      'lower 5th',
      'upper 5th',
      'lower 6th',
      'upper 6th',
      '7th',
    ]);
    expect(placeName(3, 'violin')).toBe('3rd');
  });

  it('are also those below, extended', () => {
    const all = Array.from({ length: 9 }, (_, position) => position);
    const called = (semitones: number) => all.filter((position) => inPosition(semitones - 1, position, 'cello'));
    expect([1, 2, 3, 4, 5, 6, 7, 8].map(called)).toEqual([[0], [1], [1, 2], [2], [3], [3], [4], [4, 5]]);
  });
});
