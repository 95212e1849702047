import { ARTIFICIAL_NODES, feelsLike, partialSemitones } from '../../instrument/nodes';
import { type Pitch, semitone, transposed } from '../../music/pitch';

/** Semitones from the stopped to the touched and to the sounding note of every artificial harmonic, the fourth first: it is the usual one. */
export const SHAPES = (['fourth', 'fifth', 'third', 'minor-third', 'octave', 'sixth'] as const).map((name) => {
  const { k, n } = ARTIFICIAL_NODES[name];
  return { touch: feelsLike(k, n).semitones, sounds: partialSemitones(n) };
});
/** Semitones from where a natural harmonic is touched (at its node next to the nut, or at 2/5) up to what it sounds. */
export const OVERTONES = new Set(SHAPES.map((s) => s.sounds - s.touch));
const STEPS: Readonly<Record<number, number>> = { 3: 2, 4: 2, 5: 3, 7: 4, 9: 5, 12: 7 };

/** Where an artificial harmonic on `stop` that sounds `sound` is touched; a fourth above where nothing fits. */
export function touchOf(stop: Pitch, sound: Pitch | undefined): Pitch {
  const up = SHAPES.find((s) => sound && semitone(sound) - semitone(stop) === s.sounds)?.touch ?? 5;
  return transposed(stop, STEPS[up] ?? 3, up);
}

/** The key of the piano that a printed artificial harmonic sounds. */
export function soundingOf(stop: Pitch, touch: Pitch): number | undefined {
  const shape = SHAPES.find((s) => semitone(touch) - semitone(stop) === s.touch);
  return shape && semitone(stop) + shape.sounds;
}

/** Where an artificial harmonic touched at `touch` that sounds `sound` is stopped; a fourth below where nothing fits. */
export function stopOf(touch: Pitch, sound: Pitch | undefined): Pitch {
  const down = SHAPES.find((s) => sound && semitone(sound) - semitone(touch) === s.sounds - s.touch)?.touch ?? 5;
  return transposed(touch, -(STEPS[down] ?? 3), -down);
}
