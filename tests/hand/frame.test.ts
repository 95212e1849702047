import { Scale } from 'tonal';
import { describe, expect, it } from 'vitest';
import { onFifths, scaleSemitone, standings, standsAlone } from '../../server/hand/frame';
import { parsePitch, semitone, step } from '../../server/music/pitch';

const pitch = (name: string) => parsePitch(name)!;
const place = (name: string, string: string, finger: 1 | 2 | 3 | 4, fifths: number) =>
  standings(finger, semitone(pitch(name)) - semitone(pitch(string)), pitch(string), fifths, 'violin')
    .filter(({ bend }) => standsAlone(finger, bend, 'violin'))
    .sort((a, b) => Math.abs(a.bend) - Math.abs(b.bend))[0];

describe('the scale of a key, against tonal', () => {
  it.each([
    ['C', 0],
    ['G', 1],
    ['E', 4],
    ['F#', 6],
    ['F', -1],
    ['Ab', -4],
    ['Gb', -6],
  ])('%s major', (tonic, fifths) => {
    for (const name of Scale.get(`${tonic}4 major`).notes) {
      expect(scaleSemitone(step(pitch(name)), fifths)).toBe(semitone(pitch(name)));
      expect(onFifths(pitch(name))).toBeGreaterThanOrEqual(fifths - 1);
      expect(onFifths(pitch(name))).toBeLessThanOrEqual(fifths + 5);
    }
  });
});

describe('common practice, no source — the frame of the hand', () => {
  it('has the first finger low on F and high on F#, both in first position', () => {
    expect(place('F5', 'E5', 1, 0)).toEqual({ place: 1, bend: 0 });
    expect(place('F#5', 'E5', 1, 2)).toEqual({ place: 1, bend: 0 });
  });

  it('lets the second finger lie low in C major and high in D major without a move of the hand', () => {
    expect(place('C5', 'A4', 2, 0)).toEqual({ place: 1, bend: 0 });
    expect(place('C#5', 'A4', 2, 2)).toEqual({ place: 1, bend: 0 });
    expect(place('C#5', 'A4', 2, 0)).toEqual({ place: 1, bend: 1 });
  });

  it('takes E on the A string with the second finger in third position, with the fourth in first', () => {
    expect(place('E5', 'A4', 2, 2)?.place).toBe(3);
    expect(place('E5', 'A4', 4, 2)?.place).toBe(1);
  });

  it('reaches a semitone above with the fourth finger, and back with the first', () => {
    expect(place('C6', 'E5', 4, 0)).toEqual({ place: 2, bend: 0 });
    const extended = standings(4, 8, pitch('E5'), 1, 'violin').find(({ place: at }) => at === 1);
    expect(extended?.bend).toBe(1);
    expect(standsAlone(1, -2, 'violin')).toBe(true);
    expect(standsAlone(2, -2, 'violin')).toBe(false);
  });
});
