import { describe, expect, test } from 'vitest';
import { buildInstrument } from '../../server/instrument/build';
import { ARTIFICIAL_NODES, touchPlace } from '../../server/instrument/nodes';
import { stopPlace } from '../../server/instrument/places';
import { nearestPitch, parsePitch, pitchName, semitone } from '../../server/music/pitch';

const { strings, length } = buildInstrument({ family: 'violin', tuning: 'fifths', a4: 440 });
const [e, a, d] = [strings[0]!, strings[1]!, strings[2]!];
const hzOf = (name: string): number => 440 * 2 ** ((semitone(parsePitch(name)!) - 69) / 12);
const natural = (string: typeof e, k: number, n: number) => ({ hz: n * string.hz, places: [touchPlace(0, length, k, n)] });
const fourthOn = (string: typeof e, stopped: string) => {
  const stop = stopPlace(length, string.hz, hzOf(stopped));
  const { k, n } = ARTIFICIAL_NODES.fourth;
  return { hz: n * hzOf(stopped), places: [stop, touchPlace(stop, length - stop, k, n)] };
};

/** The scale as it lies: natural 1/4 and 2/5 on one string, 1/3 on the next, a fourth harmonic; then all of it a string higher. */
const SCALE = [
  ['D6', natural(d, 1, 4)],
  ['E6', natural(a, 1, 3)],
  ['F#6', natural(d, 2, 5)],
  ['G6', fourthOn(d, 'G4')],
  ['A6', natural(a, 1, 4)],
  ['B6', natural(e, 1, 3)],
  ['C#7', natural(a, 2, 5)],
  ['D7', fourthOn(a, 'D5')],
] as const;

describe('common practice, no source — a scale of D in harmonics under one hand in third position', () => {
  test.each(SCALE)('%s sounds there', (name, { hz }) => expect(pitchName(nearestPitch(hz, 440).pitch)).toBe(name));

  test('every finger falls between the first finger on G4 and the fourth a fourth above it', () => {
    const places = SCALE.flatMap(([, { places }]) => places);
    const first = stopPlace(length, d.hz, hzOf('G4'));
    // Third position: the first finger a fourth above the open string.
    expect(Math.min(...places)).toBeGreaterThan(first - 1);
    // Comfortable from first to fourth finger for a medium hand (model of the hand): 76 mm.
    expect(Math.max(...places) - Math.min(...places)).toBeLessThan(76);
  });
});
