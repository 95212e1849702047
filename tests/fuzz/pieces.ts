import fc from 'fast-check';

const written = fc.constantFrom(
  ...['D6o', 'E5<>A5', '<>A4', 'F#5', 'E6o+B6o', 'C3', '1/4', '_', ' = E7', 'slur(', ')', ' | ', ' ', '\n'],
  ...[' [II 1-4]', ' [II'],
);
const around = fc.constantFrom(
  ...['passage: X\n', 'tempo: 1/4 = 60\n', 'motif wave = D5 E5\n', ' wave up M2 '],
  ...['// check: lone-third off\n', '> x', '\r\n'],
);
const piece = fc.oneof(
  { weight: 5, arbitrary: written },
  { weight: 2, arbitrary: around },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 6 }) },
);

/** Bits of the language and bits of nothing in any order, so that a text is now nearly right and now far from it. */
export function pieces(most: number): fc.Arbitrary<string> {
  return fc.array(piece, { maxLength: most }).map((all) => all.join(''));
}
