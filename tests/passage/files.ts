import fc from 'fast-check';

const NOTE = fc.constantFrom(
  'D5',
  'E5',
  'F#5',
  'A5o',
  'D6o_',
  'D6',
  'E5<>A5',
  'E5<>A5 = E6',
  '<>A4',
  '<>A4 = A5',
  'D5_',
  'D5',
  'E6o+A6o',
  'B4 [open 3]',
  'G5 [1-4]',
);
const ITEM = fc.oneof(
  { weight: 6, arbitrary: NOTE },
  { weight: 2, arbitrary: fc.constantFrom('1/4', '1/8', '1/16', 'rest', 'pp', 'ff', '|', '||', '|:', ':|') },
  { weight: 1, arbitrary: fc.constantFrom('wave', 'wave up M2', 'tide backwards', 'gull', 'wave in D major up 1', 'tide on E5') },
  { weight: 1, arbitrary: fc.array(NOTE, { minLength: 1, maxLength: 3 }).map((notes) => `slur(${notes.join(' ')})`) },
  { weight: 1, arbitrary: fc.constantFrom('up(D5 E5)', 'slide D6o', 'H5', ')', '[', '1/0', 'wave up', '<>', '_') },
);
const MUSIC = fc.array(ITEM, { minLength: 1, maxLength: 7 }).map((items) => items.join(' '));
/** A line of a file, not always a right one. */
export const LINE = fc.oneof(
  { weight: 8, arbitrary: MUSIC },
  {
    weight: 3,
    arbitrary: fc.constantFrom(
      'passage: Quay',
      'passage: Pier',
      'tempo: 1/4 = 60',
      'tempo: 1/8 = 132',
      'meter: 3/4',
      'meter: 4/4',
      'harmonics: all',
      'harmonics: allowed',
      'instrument: cello',
      'instrument: violin',
      'hand: small',
      'hand: 1-4 98',
      'key: D major',
      'tuning: A3 D4 A4 E5',
      'hand: mid',
      '> lightly',
      '',
      '// spray',
    ),
  },
  {
    weight: 2,
    arbitrary: fc.tuple(fc.constantFrom('wave', 'tide', 'gull'), MUSIC).map(([name, notes]) => `motif ${name} = ${notes}`),
  },
);
/** A small file of such lines: passages, settings, music, motifs, slips of the pen. */
export const FILE = fc.array(LINE, { maxLength: 14 }).map((lines) => lines.join('\n'));
