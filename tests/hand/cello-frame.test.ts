import { describe, expect, it } from 'vitest';
import type { Finger } from '../../grammar/tree';
import { celloStandings } from '../../server/hand/cello-frame';
import { NECK_END } from '../../server/hand/constants';

const PRESSED = { stops: true, thumb: false };
const WITH_THUMB = { stops: true, thumb: true };

/** Semitones of the hand places from which all these fingers get to their points at once. */
function hands(fingers: readonly (readonly [Finger, number])[], use = PRESSED): number[] {
  const places = fingers.map(([finger, semitone]) => celloStandings(finger, semitone, use).map(({ place }) => place + 1));
  return places[0]!.filter((place) => places.every((all) => all.includes(place)));
}

describe("common practice, no source — the cellist's hand on the neck", () => {
  it('has one finger to a half step in every position', () => {
    for (let at = 1; at <= NECK_END; at++) {
      const closed = [1, 2, 3, 4].map((finger, i) => [finger as Finger, at + i] as const);
      expect(hands(closed)).toEqual([at]);
    }
  });

  it('is extended between first and second finger only, to a major third', () => {
    // First position: B, C sharp, D, D sharp on the A string.
    expect(
      hands([
        [1, 2],
        [2, 4],
        [3, 5],
        [4, 6],
      ]),
    ).toEqual([3]);
    expect(
      hands([
        [1, 2],
        [4, 7],
      ]),
    ).toEqual([]);
  });

  it('never has a whole tone between second and third, or third and fourth finger', () => {
    for (let at = 1; at < NECK_END; at++) {
      expect(
        hands([
          [2, at + 1],
          [3, at + 3],
        ]),
      ).toEqual([]);
      expect(
        hands([
          [3, at + 2],
          [4, at + 4],
        ]),
      ).toEqual([]);
      expect(
        hands([
          [2, at + 1],
          [4, at + 4],
        ]),
      ).toEqual([]);
    }
  });

  it('leaves one hand place to the second, third and fourth finger, two to the first', () => {
    expect([1, 2, 3, 4].map((finger) => celloStandings(finger as Finger, 5, PRESSED).length)).toEqual([2, 1, 1, 1]);
  });

  it('takes octaves on two strings with thumb and third finger: five half steps', () => {
    for (let at = 3; at < 24; at++)
      expect(
        hands(
          [
            ['T', at],
            [3, at + 5],
          ],
          WITH_THUMB,
        ),
      ).toEqual([at + 2]);
    for (let at = 1; at < NECK_END; at++)
      expect(
        hands([
          [1, at],
          [4, at + 5],
        ]),
      ).toEqual([]);
  });
});

describe("common practice, no source — the cellist's hand past the neck", () => {
  it.each([
    ['major', [12, 14, 16, 17]],
    ['minor', [12, 14, 15, 17]],
    ['with a half step from the thumb', [12, 13, 15, 17]],
    ['chromatic from the first finger', [12, 14, 15, 16]],
    ['an augmented fourth', [12, 14, 16, 18]],
  ])('the thumb is the nut of a frame of four notes: %s', (_, [thumb, first, second, third]) => {
    expect(
      hands(
        [
          ['T', thumb!],
          [1, first!],
          [2, second!],
          [3, third!],
        ],
        WITH_THUMB,
      ),
    ).toEqual([14]);
  });

  it('has whole tones between first, second and third finger as the key asks', () => {
    for (const [second, third] of [
      [9, 10],
      [10, 11],
      [9, 11],
      [10, 12],
    ]) {
      expect(
        hands([
          [1, 8],
          [2, second!],
          [3, third!],
        ]),
      ).toContain(8);
    }
  });

  it('stretches a finger that only touches on the neck too, as to the octave harmonic from fourth position', () => {
    expect(celloStandings(4, 12, { stops: false, thumb: false }).map(({ place }) => place + 1)).toContain(7);
    expect(celloStandings(4, 12, PRESSED).map(({ place }) => place + 1)).not.toContain(7);
  });

  it('says how far a finger stands out of the closed hand', () => {
    expect(celloStandings(3, 12, PRESSED)).toEqual([
      { place: 7, bend: 2 },
      { place: 8, bend: 1 },
      { place: 9, bend: 0 },
    ]);
    expect(celloStandings(1, 2, PRESSED)).toEqual([
      { place: 1, bend: 0 },
      { place: 2, bend: -1 },
    ]);
  });
});
