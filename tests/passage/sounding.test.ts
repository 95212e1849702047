import { describe, expect, it } from 'vitest';
import { buildInstrument } from '../../server/instrument/build';
import type { Family } from '../../server/instrument/instrument';
import { partialPitch, touchInterval } from '../../server/instrument/nodes';
import { type Pitch, parsePitch, pitchName, semitone } from '../../server/music/pitch';
import { sounding, soundingNames } from '../../server/passage/sounding';

const instrument = (family: Family) => buildInstrument({ family, tuning: 'fifths', a4: 440 });
const VIOLIN = instrument('violin');

function pitch(name: string): Pitch {
  const read = parsePitch(name);
  if (!read) throw new Error(`${name} is no pitch`);
  return read;
}

/**
 * Orchestration handbooks agree on these (as W. Piston, Orchestration, 1955, and S. Adler, The Study of Orchestration, have them;
 * from memory): the interval between the two fingers, and how far above the stopped note the harmonic sounds.
 */
describe('what two printed fingers sound', () => {
  it.each([
    ['octave', 'A4', 'A5', 'A5', 12],
    ['fifth', 'A4', 'E5', 'E6', 19],
    ['fourth', 'E5', 'A5', 'E7', 24],
    ['third', 'A4', 'C#5', 'C#7', 28],
    ['minor-third', 'A4', 'C5', 'E7', 31],
    ['sixth', 'A4', 'F#5', 'C#7', 28],
  ] as const)('%s: %s touched at %s sounds %s, %d semitones up', (interval, stop, touch, sounds, up) => {
    expect(touchInterval(pitch(stop), pitch(touch))).toBe(interval);
    const [found, ...others] = sounding({ kind: 'artificial', stop: pitch(stop), touch: pitch(touch) }, VIOLIN);
    expect(others).toEqual([]);
    expect(found && pitchName(found.pitch)).toBe(sounds);
    expect(found && semitone(found.pitch) - semitone(pitch(stop))).toBe(up);
  });

  // Common practice, no source: a fourth sounds two octaves above the stopped note, a fifth an octave above the touched one.
  it('keeps the spelling of the written notes', () => {
    const sounds = (stop: string, touch: string) => {
      const [found] = sounding({ kind: 'artificial', stop: pitch(stop), touch: pitch(touch) }, VIOLIN);
      return found && pitchName(found.pitch);
    };
    expect(sounds('Bb4', 'Eb5')).toBe('Bb6');
    expect(sounds('C#5', 'F#5')).toBe('C#7');
    expect(sounds('Eb5', 'Bb5')).toBe('Bb6');
    expect(sounds('Bb3', 'D4')).toBe('D6');
    // An augmented third is held as a fourth.
    expect(sounds('Bb4', 'D#5')).toBe('Bb6');
  });

  it.each([
    ['E5', 'E5'],
    ['E5', 'F5'],
    ['E5', 'F#5'],
    ['E5', 'Bb5'],
    ['E5', 'C6'],
    ['E5', 'D6'],
    ['A5', 'E5'],
    ['E5', 'F6'],
  ])('%s touched at %s sounds nothing', (stop, touch) => {
    expect(sounding({ kind: 'artificial', stop: pitch(stop), touch: pitch(touch) }, VIOLIN)).toEqual([]);
  });
});

describe('what a lone diamond sounds', () => {
  const names = (touch: string, family: Family = 'violin') =>
    sounding({ kind: 'diamond', touch: pitch(touch) }, instrument(family)).map(
      ({ pitch: sounds, string, node }) => `${string} ${node?.k}/${node?.n} ${pitchName(sounds)}`,
    );

  it('one sounding for every string and node it can mean, the lowest partial first', () => {
    // On the D string A4 is the fifth: a third of the string. On the G string it is a ninth, which is no node; on A the open string.
    expect(names('A4')).toEqual(['III 1/3 A5']);
    // D5 on the A string is a fourth; on the D string the octave; on the G string the twelfth, 2/3.
    expect(names('D5')).toEqual(['III 1/2 D5', 'IV 2/3 D5', 'II 1/4 A6']);
    expect(names('G4')).toEqual(['IV 1/2 G4', 'III 1/4 D6']);
    expect(names('B3')).toEqual(['IV 1/5 B5']);
  });

  it('the seventh partial hides where the sixth is printed', () => {
    // A minor third is 3.16 semitones for 1/6 and 2.67 for 1/7: both are printed so.
    expect(names('Bb3')).toEqual(['IV 1/6 D6', 'IV 1/7 F6']);
  });

  it('depends on the instrument', () => {
    expect(names('G2', 'cello')).toEqual(['IV 1/3 G3']);
    expect(names('G4', 'viola')).toEqual(['III 1/2 G4', 'IV 2/3 G4', 'II 1/4 D6']);
  });

  it('an expected pitch leaves only the soundings that give it', () => {
    const found = sounding({ kind: 'diamond', touch: pitch('D5'), sounding: pitch('A6') }, VIOLIN);
    expect(found.map(({ string }) => string)).toEqual(['II']);
  });
});

it('partials are spelled as musicians spell them', () => {
  // The harmonic series on C2 as every handbook prints it; the seventh and its like are spelled, not in tune.
  const series = [2, 3, 4, 5, 6, 7, 8].map((partial) => pitchName(partialPitch(pitch('C2'), partial)));
  expect(series).toEqual(['C3', 'G3', 'C4', 'E4', 'G4', 'Bb4', 'C5']);
});

it('lists of soundings read as a player would say them', () => {
  expect(soundingNames(sounding({ kind: 'diamond', touch: pitch('D5') }, VIOLIN))).toBe('D5 or A6');
  expect(soundingNames([])).toBe('nothing');
});
