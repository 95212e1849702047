import { describe, expect, it } from 'vitest';
import { chanceTogether, chanceWithin, shiftVariance, spacingVariance, stillVariance } from '../../server/hand/chance';
import { SHORTEST_MOVE, TOGETHER, TOGETHER_SHARE } from '../../server/hand/constants';
import { namedHand } from '../../server/hand/hands';
import { centsToSpare, missHeard, stoppedTolerance } from '../../server/hand/intonation';
import { ownHand } from '../../server/hand/own-hand';
import { LEVEL_NAMES, skillOf } from '../../server/hand/skill';
import { centsPerMm, semitonePlace } from '../../server/instrument/places';

const professional = skillOf('professional');
/** Standard deviation in cents of a finger put down where `length` mm sound. */
const cents = (length: number, distance = 0, seconds = 1) => {
  const variance = stillVariance(professional, 1 / centsPerMm(length)) + shiftVariance(professional, distance, seconds);
  return Math.sqrt(variance) * centsPerMm(length);
};
/** Length that sounds so many semitones up a violin's string. */
const up = (semitones: number, length = 328) => length - semitonePlace(length, semitones);

describe('published: Geringer, MacLeod and Ellis 2013 — four artists lay from 17 cents below to 26 above the accompaniment', () => {
  it('such a span is what some 250 notes in first position make of the error of a still finger, temperament apart', () => {
    // The middle half of what the two extremes of 250 normal values may be lies near 5.6 standard deviations.
    const span = 5.6 * cents(up(4));
    expect(span).toBeGreaterThan(43 * 0.75);
    expect(span).toBeLessThan(43);
  });
});

describe('published: Chen, Woollacott, Pologe and Moore 2013 — cellists shift at one note a second with precision', () => {
  it.each([2, 5, 7, 12])('by %i semitones on one string: hardly less sure than a still finger, and in tune', (semitones) => {
    const from = semitonePlace(690, 2);
    const to = semitonePlace(690, 2 + semitones);
    const still = cents(690 - to);
    const shifted = cents(690 - to, to - from, 0.5);
    expect(shifted / still).toBeLessThan(1.05);
    expect(chanceWithin(centsToSpare(professional, 1), shifted)).toBeGreaterThan(0.999);
  });
});

describe('published: Chen et al. 2008 — within one note a cellist moves the finger to correct the pitch', () => {
  it('a note of a second is heard less than half as far off as it began, a short one all of it', () => {
    expect(missHeard(1)).toBeLessThan(0.5);
    expect(missHeard(0.15)).toBe(1);
  });
});

describe('published: Larrouy-Maestri 2018 — a melody’s note passes up to half of a quarter tone', () => {
  it('a short note passes up to 25 cents', () => expect(centsToSpare(professional, 0.2)).toBeCloseTo(25, 9));
});

describe('published: Schmidt et al. 1979 — error grows with distance and falls with time, in proportion', () => {
  it.each([
    [40, 0.1],
    [90, 0.3],
  ])('%i mm in %f s', (distance, seconds) => {
    const error = (d: number, t: number) => Math.sqrt(shiftVariance(professional, d, t));
    expect(error(distance * 2, seconds) / error(distance, seconds)).toBeCloseTo(2, 9);
    expect(error(distance, seconds * 2) / error(distance, seconds)).toBeCloseTo(0.5, 9);
  });
});

describe('a move of no time', () => {
  it('is reckoned with the shortest there is, so its error has an end', () => {
    expect(shiftVariance(professional, 40, 0)).toBe(shiftVariance(professional, 40, SHORTEST_MOVE));
    expect(shiftVariance(professional, 40, 0)).toBeCloseTo(((professional.shift * 40) / SHORTEST_MOVE) ** 2, 12);
  });
});

describe('published: Baader, Kazennikov and Wiesendanger 2005 — finger and bow from 12 ms early to 60 ms late, unheard', () => {
  it('their span is five of our standard deviations, and its far end unheard on a note of 150 ms', () => {
    expect(0.072 / TOGETHER).toBeCloseTo(4.8, 1);
    expect(TOGETHER_SHARE * 0.15).toBeCloseTo(0.06, 9);
    expect(chanceTogether(professional, 0.15)).toBeGreaterThan(0.999);
  });
});

describe('published: Geringer, Allen and MacLeod 2005 — 0.50 s against 0.42 s, high school against university players', () => {
  it('is how a student’s pace is to an advanced player’s', () => {
    expect(skillOf('student').pace / skillOf('advanced').pace).toBeCloseTo(0.5 / 0.42, 9);
  });
});

describe('common practice, no source — how surely hands land', () => {
  it('errors shrink with the semitones up the string, in mm', () => {
    const mm = [1, 5, 12, 19, 24].map((semitones) => Math.sqrt(stillVariance(professional, 1 / centsPerMm(up(semitones)))));
    expect(mm).toEqual([...mm].sort((a, b) => b - a));
    expect(mm.at(-1)! / mm[0]!).toBeLessThan(0.5);
  });

  it('a longer note never forgives less', () => {
    const spare = Array.from({ length: 100 }, (_, i) => centsToSpare(professional, (i + 1) / 25));
    expect(spare).toEqual([...spare].sort((a, b) => a - b));
  });

  it('a stopped note held for a second lands, even an octave and a half up', () => {
    expect(chanceWithin(centsToSpare(professional, 1), cents(up(15)))).toBeGreaterThan(0.999);
  });

  it('a hand opened as far as it goes is less sure than one at ease', () => {
    expect(spacingVariance(professional, 1)).toBeGreaterThan(spacingVariance(professional, 0));
    expect(stillVariance(professional, 0.2, 1)).toBeGreaterThan(stillVariance(professional, 0.2, 0.5));
  });

  it('each level is surer and quicker than the one before', () => {
    const skills = LEVEL_NAMES.map(skillOf);
    for (const key of ['still', 'shift', 'spacing', 'together', 'bow', 'pace'] as const) {
      const values = skills.map((skill) => skill[key]);
      expect(values, key).toEqual([...values].sort((a, b) => b - a));
      expect(new Set(values).size).toBe(LEVEL_NAMES.length);
    }
  });
});

describe('what a player has measured', () => {
  const hand = namedHand('medium', 'violin');
  const { skill } = ownHand(hand, { accuracy: { still: 2, spacing: 1.5, inTune: 12 } }, 328);

  it('is the error in first position in mm, and shifts are surer or less sure by as much', () => {
    const perCent = 1 / centsPerMm(328 - semitonePlace(328, 2));
    expect(skill.still * perCent).toBeCloseTo(2, 9);
    expect(skill.shift / hand.skill.shift).toBeCloseTo(skill.still / hand.skill.still, 9);
    expect(skill.spacing).toBe(1.5);
    expect(skill.inTune).toBe(12);
  });

  it('leaves alone what was not measured', () => {
    expect(ownHand(hand, { accuracy: { inTune: 12 } }, 328).skill).toEqual({ ...hand.skill, inTune: 12 });
  });

  it('gives a long stopped note 15 cents where nothing was: 1731 / l cents to the mm', () => {
    expect(stoppedTolerance(hand.skill, 328)).toBeCloseTo((15 * 328) / 1731.234, 3);
  });
});
