/** Reaches measured so far, mm, by pair of fingers: `1-4`. */
export type Reaches = Readonly<Record<string, number>>;

/** What the bounds of a hand are taken for, mm; the server's reader has the same. */
export interface Bounds {
  readonly least: number;
  readonly most: number;
}

/**
 * mm between two places of a string, each given in semitones above the open string: `length` is the sounding length of the open
 * string, mm. Twelve semitones halve a string, so `s` of them leave `length / 2^(s/12)`.
 */
export function betweenSemitones(length: number, lower: number, higher: number): number {
  return length * (2 ** (-lower / 12) - 2 ** (-higher / 12));
}

/** Pairs of which the first lies inside the second, so that it can't open further. */
const INSIDE: readonly (readonly [inner: string, outer: string])[] = [
  ['1-2', '1-3'],
  ['1-3', '1-4'],
  ['2-3', '1-3'],
  ['2-3', '2-4'],
  ['2-4', '1-4'],
  ['3-4', '2-4'],
  ['T-1', 'T-2'],
  ['T-2', 'T-3'],
];

/** What can't be right about a reach beside those measured before, in words; undefined where nothing is. */
export function doubt(pair: string, mm: number, reaches: Reaches, { least, most }: Bounds): string | undefined {
  if (!(mm >= least && mm <= most)) return `A reach lies from ${least} to ${most} mm. Measure from fingertip to fingertip.`;
  for (const [inner, outer] of INSIDE) {
    const [inside, around] = [inner, outer].map((name) => (name === pair ? mm : reaches[name]));
    if (inside !== undefined && around !== undefined && inside > around && (inner === pair || outer === pair))
      return `Fingers ${inner} can’t open further (${inside} mm) than fingers ${outer} around them (${around} mm). Measure both again.`;
  }
  return undefined;
}

/** As a player file writes them: `1-2 48, 1-4 98`. */
export function handLine(pairs: readonly string[], reaches: Reaches): string {
  return pairs.flatMap((pair) => (reaches[pair] === undefined ? [] : [`${pair} ${reaches[pair]}`])).join(', ');
}
