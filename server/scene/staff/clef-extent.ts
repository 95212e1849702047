import type { Clef } from './clef';
import { OUTLINES } from './outlines';

/** Sign of each clef (SMuFL) and the line it stands on, px below the top line. */
const SIGN: Readonly<Record<Clef, readonly [code: number, line: number]>> = {
  treble: [0xe050, 30],
  alto: [0xe05c, 20],
  tenor: [0xe05c, 10],
  bass: [0xe062, 10],
};

/** Highest and lowest point of a clef at the size of the staff, px below its top line. */
export function clefExtent(clef: Clef): { readonly top: number; readonly bottom: number } {
  const [code, line] = SIGN[clef];
  const [, top, , bottom] = OUTLINES.get(code)?.box ?? [0, 0, 0, 0];
  const size = 40 / 1000;
  return { top: line + top * size, bottom: line + bottom * size };
}
