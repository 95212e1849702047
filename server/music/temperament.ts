import { type Pitch, semitone } from './pitch';

/** Where the tuning of a note comes from. `just` places its tonic on the chain of pure fifths through A. */
export type Temperament =
  | { readonly kind: 'equal' }
  | { readonly kind: 'pythagorean' }
  | { readonly kind: 'just'; readonly tonic: Pick<Pitch, 'letter' | 'alter'> };

/** Cents of a frequency ratio. */
export function cents(ratio: number): number {
  return 1200 * Math.log2(ratio);
}

/** What a pure fifth (3:2) has over seven equal semitones, 1.955 cents. */
export const FIFTH_EXCESS = cents(3 / 2) - 700;

/** Four pure fifths less two octaves and a pure third (81:80), 21.506 cents. */
export const SYNTONIC_COMMA = cents(81 / 80);

const CHAIN = 'FCGDAEB';

/** Fifths from A along the line of fifths: E is 1, D is -1, Bb is -5. */
export function fifthsFromA(name: Pick<Pitch, 'letter' | 'alter'>): number {
  return CHAIN.indexOf(name.letter) - CHAIN.indexOf('A') + 7 * name.alter;
}

/**
 * Cents by which a temperament differs from equal temperament at the same A (A is 0 in `equal` and
 * `pythagorean`). `pythagorean` is the chain of pure fifths through A. `just` is the five-limit scale on
 * its tonic, four notes to each chain of fifths and the chains a pure third apart (A. J. Ellis's duodene, in his
 * translation of Helmholtz, 1885; from memory): 1/1 16/15 9/8 6/5 5/4 4/3 45/32 3/2 8/5 5/3 9/5 15/8.
 */
export function deviation(pitch: Pick<Pitch, 'letter' | 'alter'>, temperament: Temperament): number {
  if (temperament.kind === 'equal') return 0;
  const pure = FIFTH_EXCESS * fifthsFromA(pitch);
  if (temperament.kind === 'pythagorean') return pure;
  const fromTonic = fifthsFromA(pitch) - fifthsFromA(temperament.tonic);
  return pure - SYNTONIC_COMMA * Math.floor((fromTonic + 1) / 4);
}

/** Hz. `a4` is the frequency of A4 (440 in ISO 16:1975). */
export function frequency(pitch: Pitch, temperament: Temperament, a4: number): number {
  return a4 * 2 ** ((semitone(pitch) - 69) / 12 + deviation(pitch, temperament) / 1200);
}
