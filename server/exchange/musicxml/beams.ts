import type Fraction from 'fraction.js';
import { beamGroupOf, type Meter } from '../../music/meter';

/** What the beams need to know of a note or rest in its bar. */
export interface Beamed {
  readonly onset: Fraction;
  /** 0 for a quarter and longer. */
  readonly flags: number;
  readonly rest: boolean;
}

export type Beam = 'begin' | 'continue' | 'end' | 'forward hook' | 'backward hook';

/** The beams of every note of a bar, the outermost first: notes with flags are joined within the meter's groups. */
export function beamsOf(notes: readonly Beamed[], meter: Meter | undefined): readonly (readonly Beam[])[] {
  const group = beamGroupOf(meter);
  const groups: number[][] = [];
  let window: bigint | undefined;
  for (const [i, { onset, flags, rest }] of notes.entries()) {
    const here = onset.div(group).floor().n;
    if (rest || flags === 0) {
      window = undefined;
      continue;
    }
    if (here === window) groups.at(-1)?.push(i);
    else groups.push([i]);
    window = here;
  }
  const beams: Beam[][] = notes.map(() => []);
  for (const members of groups) {
    if (members.length < 2) continue;
    for (const [at, i] of members.entries()) {
      const level = (j: number) => (members[j] === undefined ? 0 : (notes[members[j]]?.flags ?? 0));
      for (let n = 1; n <= Math.min(level(at), 8); n++) {
        const before = level(at - 1) >= n;
        const after = level(at + 1) >= n;
        beams[i]?.push(before ? (after ? 'continue' : 'end') : after ? 'begin' : at === 0 ? 'forward hook' : 'backward hook');
      }
    }
  }
  return beams;
}
