import type { Pitch } from './pitch';

/** Where the tuning of a note comes from. `just` places its tonic on the chain of pure fifths through A. */
export type Temperament =
  | { readonly kind: 'equal' }
  | { readonly kind: 'pythagorean' }
  | { readonly kind: 'just'; readonly tonic: Pick<Pitch, 'letter' | 'alter'> };

/** Cents of a frequency ratio. */
export function cents(ratio: number): number {
  return 1200 * Math.log2(ratio);
}
