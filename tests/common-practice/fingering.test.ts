import { describe, expect, it } from 'vitest';
import { readFingering } from './fingering';
import { type Performance, type Played, type PlayedNote, written } from './played';
import {
  alike,
  allOn,
  fingersAlike,
  NO_FINGER_TWICE,
  NO_OPEN_STRING,
  NO_STRING_AGAIN,
  REPEATED_NOTES_ALIKE,
  RUNS_LIKE_A_SCALE,
  shiftsAtMost,
  shiftsOnlyOnto,
} from './properties';

/** `IV0:55@1` — string, finger, pitch by its MIDI number, position; double stops with a plus. */
function played(text: string): Played[] {
  return text.split(' ').map((word) => {
    const notes = word.split('+').map(note);
    return { notes, position: Number(word.split('^')[1] ?? 1), event: undefined as never };
  });
}

function note(word: string): PlayedNote {
  const { string, fingers, node, pitch } =
    /^(?<string>[IV]+)(?<fingers>[0-4](?:-[1-4])?)(?:o@(?<node>[\d/]+))?(?::(?<pitch>\d+))?/.exec(word)!.groups as {
      string: string;
      fingers: string;
      node?: string;
      pitch?: string;
    };
  const [finger, touching] = fingers.split('-').map(Number) as [0 | 1 | 2 | 3 | 4, (1 | 2 | 3 | 4)?];
  const kind = node ? 'natural' : touching ? 'artificial' : finger === 0 ? 'open' : 'stopped';
  return {
    string,
    finger,
    kind,
    ...(touching && { touching }),
    ...(node && { node }),
    pitch: Number(pitch ?? 0),
    text: word.replace(/[:^].*/, ''),
  };
}

const fits = (pattern: string, text: string) => readFingering(pattern).matches(played(text));
const performance = (text: string): Performance => ({ played: played(text), unplayable: [], warnings: [] });

describe('the notation of accepted fingerings', () => {
  it.each([
    ['IV 0 1 III 0', 'IV0 IV1 III0', 'IV0 IV1 II0'],
    ['II 1 2|3 4', 'II1 II3 II4', 'II1 II4 II4'],
    ['IV 1 {III 0 | IV 4} 2', 'IV1 IV4 IV2', 'IV1 III0 III2'],
    ['{II 1 2 | II 2 3} {II 4 | I 0}', 'II2 II3 I0', 'II1 II3 I0'],
    ['II+I 1+4 1+4|2+0', 'II1+I4 II2+I0', 'II1+I4 II1'],
    ['II 1-4 *-4', 'II1-4 II2-4', 'II1-4 II4'],
    ['III 1o *o@3/4', 'III1o@1/4 III4o@3/4', 'III1o@1/4 III4o@1/4'],
    ['III 1 *', 'III1 III4', 'III1 II4'],
    ['III 1 ...', 'III1 II4 I0', 'III2 II4 I0'],
    ['III 4', 'III4', 'III4o@1/3'],
  ])('%s takes %s and refuses %s', (pattern, good, bad) => {
    expect(fits(pattern, good)).toBe(true);
    expect(fits(pattern, bad)).toBe(false);
    expect(fits(pattern, `${good} I3`)).toBe(pattern.endsWith('...'));
  });

  it('is strict about what it is told', () => {
    for (const wrong of ['1 2', 'II 5', 'II+I 1', 'II+I 2|1+4', 'II {1 | 2', 'II 1 }', 'V 1'])
      expect(() => readFingering(wrong)).toThrow();
  });

  it('writes what was played as it reads it', () => {
    const text = 'IV0 IV1 III1-4 II1+I4 II3+I2 I4o@1/2';
    expect(written(played(text))).toBe('IV 0 1 III 1-4 II+I 1+4 3+2 I 4o@1/2');
    expect(fits(written(played(text)), text)).toBe(true);
  });
});

describe('properties of a fingering', () => {
  it.each([
    [allOn('II'), 'II1 II2', 'II1 I2'],
    [NO_OPEN_STRING, 'II1', 'II0'],
    [shiftsAtMost(1), 'II1:71^1 I0^3 II1:74^3', 'II1:71^1 II1:74^3 II1:71^1'],
    [shiftsOnlyOnto(2), 'II1^1 II1^3 II2^3', 'II1^1 II2^1 II2^2'],
    [alike(2, 1, 3), 'II1 II2 II1 II2', 'II1 II2 II1 I2'],
    [fingersAlike(2, 1, 3), 'II1 II2 I1 I2', 'II1 II2 I1 I3'],
    [REPEATED_NOTES_ALIKE, 'II1:71 II1:71 II2:72', 'II1:71 III4:71'],
    [NO_FINGER_TWICE, 'II1:71 II1:72 I1:78', 'II1:71 II1:73'],
    [NO_STRING_AGAIN, 'II1 II2 I1', 'II1 I2 II1'],
    [RUNS_LIKE_A_SCALE, 'II1:71 II2:73 II1:74 II2:76', 'II1:71 II1:73'],
    [RUNS_LIKE_A_SCALE, 'II2:76 II1:74 II3:73 II2:71', 'II3:76 II4:74'],
    [RUNS_LIKE_A_SCALE, 'II1:71 II1:72 II2:73', 'II1:71 II1:72 II1:73'],
    [RUNS_LIKE_A_SCALE, 'II4:76 II0:69', 'II4:76 II3:77'],
  ])('$says', ({ fault }, good, bad) => {
    expect(fault(performance(good))).toBeUndefined();
    expect(fault(performance(bad))).not.toBeUndefined();
  });
});
