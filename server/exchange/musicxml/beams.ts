import Fraction from 'fraction.js';
import type { Meter } from '../../passage/passage';

/** What the beams need to know of a note or rest in its bar. */
export interface Beamed {
  readonly onset: Fraction;
  /** 0 for a quarter and longer. */
  readonly flags: number;
  readonly rest: boolean;
}

export type Beam = 'begin' | 'continue' | 'end' | 'forward hook' | 'backward hook';

const QUARTER = new Fraction(1, 4);

/**
 * The beams of every note of a bar, the outermost first: notes with flags inside one beat are joined.
 * In compound meters (6/8, 9/8, 12/8) the beat is three of the unit, else a quarter or the unit if longer.
 */
export function beamsOf(notes: readonly Beamed[], meter: Meter | undefined): readonly (readonly Beam[])[] {
  const beat = beatOf(meter);
  const groups: number[][] = [];
  let window: bigint | undefined;
  for (const [i, { onset, flags, rest }] of notes.entries()) {
    const here = onset.div(beat).floor().n;
    if (rest || flags === 0) {
      window = undefined;
      continue;
    }
    if (here === window) groups.at(-1)?.push(i);
    else groups.push([i]);
    window = here;
  }
  const beams: Beam[][] = notes.map(() => []);
  for (const group of groups) {
    if (group.length < 2) continue;
    for (const [at, i] of group.entries()) {
      const level = (j: number) => (group[j] === undefined ? 0 : (notes[group[j]]?.flags ?? 0));
      for (let n = 1; n <= Math.min(level(at), 8); n++) {
        const before = level(at - 1) >= n;
        const after = level(at + 1) >= n;
        beams[i]?.push(before ? (after ? 'continue' : 'end') : after ? 'begin' : at === 0 ? 'forward hook' : 'backward hook');
      }
    }
  }
  return beams;
}

function beatOf(meter: Meter | undefined): Fraction {
  if (!meter) return QUARTER;
  if (meter.unit >= 8 && meter.count > 3 && meter.count % 3 === 0) return new Fraction(3, meter.unit);
  const unit = new Fraction(1, meter.unit);
  return unit.compare(QUARTER) > 0 ? unit : QUARTER;
}
