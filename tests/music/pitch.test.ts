import fc from 'fast-check';
import { Note } from 'tonal';
import { describe, expect, test } from 'vitest';
import type { Letter } from '../../grammar/tree';
import { nearestPitch, type Pitch, parsePitch, pitchName, semitone, spell, step, transposed } from '../../server/music/pitch';

const PITCH: fc.Arbitrary<Pitch> = fc.record({
  letter: fc.constantFrom<Letter>('A', 'B', 'C', 'D', 'E', 'F', 'G'),
  alter: fc.integer({ min: -2, max: 2 }),
  octave: fc.integer({ min: 0, max: 8 }),
});

describe('pitch against tonal, an independent library', () => {
  test('the usual spelling of every key of the piano, in sharps and in flats', () => {
    for (let key = 21; key <= 108; key++) {
      expect(pitchName(spell(key))).toBe(Note.fromMidiSharps(key));
      expect(pitchName(spell(key, true))).toBe(Note.fromMidi(key));
    }
  });

  test('name, key number, and the way back from text', () => {
    fc.assert(
      fc.property(PITCH, (pitch) => {
        const name = pitchName(pitch);
        const reference = Note.get(name);
        expect(semitone(pitch)).toBe(reference.height);
        expect(parsePitch(name)).toEqual(pitch);
        expect(semitone(spell(semitone(pitch)))).toBe(reference.height);
      }),
    );
  });
  test('transposing by an interval', () => {
    fc.assert(
      fc.property(
        PITCH,
        fc.constantFrom('2m', '2M', '3m', '3M', '4P', '5P', '6m', '6M', '7m', '7M', '8P', '-3M', '-4P', '-5P'),
        (pitch, by) => {
          const reference = Note.get(Note.transpose(pitchName(pitch), by));
          fc.pre(Math.abs(reference.alt) <= 2);
          const semitones = reference.height - semitone(pitch);
          const steps = reference.step + 7 * (reference.oct as number) - step(pitch);
          expect(pitchName(transposed(pitch, steps, semitones))).toBe(reference.name);
        },
      ),
    );
  });
});

describe('transposing to where three accidentals would be needed: spelled as the piano has it', () => {
  // tonal tells the key; flats stay flats, and what has neither goes to sharps.
  test.each([
    ['A##4', '3M', 2, 4, 'D#5'],
    ['Cbb5', '-3M', -2, -4, 'Gb4'],
    ['C4', '1AAA', 0, 3, 'D#4'],
  ])('%s by %s', (from, by, steps, semitones, to) => {
    const reference = Note.get(Note.transpose(from, by));
    expect(Math.abs(reference.alt)).toBe(3);
    const found = transposed(parsePitch(from)!, steps, semitones);
    expect(semitone(found)).toBe(reference.height);
    expect(pitchName(found)).toBe(to);
  });
});

describe('reading a pitch', () => {
  test.each([
    ['F#6', 'F#6'],
    ['B♭3', 'Bb3'],
    ['F♯5', 'F#5'],
    ['C𝄪6', 'C##6'],
    ['E𝄫4', 'Ebb4'],
    [' A4 ', 'A4'],
    ['C-1', 'C-1'],
  ])('%s is %s', (text, name) => expect(pitchName(parsePitch(text)!)).toBe(name));
  test.each(['', 'H4', 'A', 'a4', 'A4o', 'C###4', 'Cbbb4', 'A44444444444', '♯4', 'A 4', '4A'])('%j is no pitch', (text) => {
    expect(parsePitch(text)).toBeUndefined();
  });
  test('no text throws', () => fc.assert(fc.property(fc.string(), (text) => void parsePitch(text))));
});

describe('nearest pitch', () => {
  test('published: handbook tables of equal temperament at A4 = 440 (from memory) — 466.164 Hz is A#4, or Bb4 in flats', () => {
    expect(pitchName(nearestPitch(466.164, 440).pitch)).toBe('A#4');
    expect(pitchName(nearestPitch(466.164, 440, true).pitch)).toBe('Bb4');
  });
  test('finds the pitch and what is left over', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 21, max: 120 }),
        fc.double({ min: -49, max: 49, noNaN: true }),
        fc.boolean(),
        (key, off, flats) => {
          const found = nearestPitch(442 * 2 ** ((key - 69 + off / 100) / 12), 442, flats);
          expect(found.pitch).toEqual(spell(key, flats));
          expect(found.cents).toBeCloseTo(off, 6);
        },
      ),
    );
  });
});
