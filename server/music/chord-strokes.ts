import type { Breaking } from '../../grammar/marks';

/** First and last note, counted from the lowest, of each stroke in which the bow takes a chord. */
const STROKES: Readonly<Record<Breaking, readonly (readonly [first: number, last: number])[]>> = {
  '1+2': [
    [0, 0],
    [1, 2],
  ],
  '2+1': [
    [0, 1],
    [2, 2],
  ],
  '2+2': [
    [0, 1],
    [2, 3],
  ],
  together: [[0, 2]],
};

/** Notes of the first stroke. */
export function firstStroke(breaking: Breaking): number {
  return STROKES[breaking][0]![1] + 1;
}

/** First and last of the notes that are taken together, for each bracket that is printed about some. */
export function bracketsOf(breaking: Breaking): readonly (readonly [first: number, last: number])[] {
  return STROKES[breaking].filter(([first, last]) => first < last);
}
