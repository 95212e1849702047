import { SHARPENED } from '../../music/key-names';
import { natural, type Pitch, step } from '../../music/pitch';

/** The signature, in sharps or negative in flats, that most of the keys of the piano belong to; of several the plainest. */
export function likelyKey(keys: readonly number[]): number {
  const counts = Array.from({ length: 12 }, (_, pc) => keys.filter((key) => key % 12 === pc).length);
  let best = 0;
  let most = -1;
  for (const fifths of [0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6]) {
    // A major scale is seven neighbours on the line of fifths, from one below its tonic.
    const inside = Array.from({ length: 7 }, (_, i) => counts[mod(7 * (fifths - 1 + i), 12)] as number).reduce(
      (a, b) => a + b,
      0,
    );
    if (inside > most) [best, most] = [fifths, inside];
  }
  return best;
}

/**
 * A key of the piano as it is most often spelled under a signature: of its names the one between three fifths below the
 * major tonic and eight above, which takes in the raised sixth and seventh of the minor key.
 */
export function spelled(key: number, fifths: number): Pitch {
  // Seven semitones are a fifth, and seven times seven is one modulo twelve.
  const from = fifths - 3;
  const place = from + mod(7 * key - from, 12);
  const letter = SHARPENED[mod(place + 1, 7)] as (typeof SHARPENED)[number];
  const alter = Math.floor((place + 1) / 7);
  const plain = key - alter;
  const octave = Math.floor(plain / 12) - 1;
  return { ...natural(step({ letter, alter: 0, octave })), alter };
}

function mod(value: number, by: number): number {
  return ((value % by) + by) % by;
}
