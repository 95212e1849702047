/** Cases of the table that the solver does not meet yet, by name. The list may only grow shorter. */
export const NOT_YET: ReadonlySet<string> = new Set([
  'chromatic scale, D to D, up',
  'sequence climbing the E string',
  'thirds climbing D and A',
  'broken octaves',
  'half position on the A string',
  'scale of D in harmonics',
  'sequence of falling fours high on E',
  'thirds in B flat',
  'far quarter of the A string by a slide',
  'half position, leading notes on two strings',
  'viola: G3 F#4 C5 B4 C5 F#4 C5 F#4',
  'viola: C3 A3 F4 C4 F4 A3 and on to B3 F4 D4',
  'sharp key in second position',
  'figure repeated across an open string',
]);
