/**
 * Cents by which stiffness sharpens a partial against the same string's first: about 866 B (n^2 - 1), exactly
 * the ratio of sqrt(1 + B n^2) to sqrt(1 + B). `openB` is the coefficient of the open string, which grows as the
 * square of what stopping shortens it by (H. Fletcher, JASA 36, 1964, for the form; model.md for the values).
 */
export function stiffnessCents(openB: number, openLength: number, soundingLength: number, partial: number): number {
  const b = openB * (openLength / soundingLength) ** 2;
  return 600 * Math.log2((1 + b * partial ** 2) / (1 + b));
}
