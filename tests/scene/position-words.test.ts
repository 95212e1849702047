import { describe, expect, it } from 'vitest';
import type { Finger } from '../../grammar/tree';
import { handPlaces, positionOf } from '../../server/hand/places';
import { positionWords } from '../../server/scene/position-words';
import type { Solution } from '../../server/solver/solution';
import { waysOf } from '../../server/solver/ways';
import { note, setup } from '../solver/build';

const cello = setup({ family: 'cello' });
const places = handPlaces(cello.instrument);

/** What is said and signed at every note, with the hand put where each note says: «note finger semitones of the hand». */
function words(...notes: readonly (readonly [string, Finger, number])[]): (string | undefined)[] {
  const events = notes.map(([name, finger, semitones]) => {
    const way = waysOf(note(name), cello).find((one) => (one.stop?.finger ?? 0) === finger && one.string < 2)!;
    const hand = { mm: places[semitones - 1]!, position: positionOf(semitones - 1, 'cello') };
    return { fingering: { ways: [way], hand, barred: false }, cost: 0, terms: {}, speaks: [1] };
  });
  const solution = { passage: { setup: cello }, events } as unknown as Solution;
  return notes.map((_, event) => {
    const found = positionWords(solution, event);
    return found && `${found.extends ? `x${found.extends} ` : ''}${found.words}`;
  });
}

describe("common practice, no source — a cellist's positions in words", () => {
  it('name the closed hand by its position, and say nothing of an open string', () => {
    expect(words(['B3', 1, 2], ['C#4', 3, 2], ['A3', 0, 2])).toEqual(['1st position', '1st position', undefined]);
    expect(words(['C4', 1, 3], ['D4', 3, 3])).toEqual(['lower 2nd position', 'lower 2nd position']);
    expect(words(['F4', 1, 8])).toEqual(['lower 5th position']);
  });

  it('name the extended hand by its first finger, with the sign where it opens', () => {
    expect(words(['B3', 1, 3], ['C#4', 2, 3], ['D#4', 4, 3])).toEqual([
      '1st position, extended',
      'x2 1st position, extended',
      '1st position, extended',
    ]);
  });

  it('say that the first finger goes back, with the sign before it', () => {
    expect(words(['C4', 2, 2], ['Bb3', 1, 2], ['D4', 4, 2])).toEqual([
      '1st position',
      'x1 1st position, first finger back',
      '1st position',
    ]);
  });

  it('say where the thumb is on the string', () => {
    expect(words(['B4', 1, 14], ['C#5', 2, 14])).toEqual(['thumb position', 'thumb position']);
    expect(words(['G4', 'T', 12], ['A4', 1, 12])).toEqual(['thumb position', 'thumb position']);
  });
});
