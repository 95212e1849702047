/** Words that players say and write elsewhere, and how this language writes them. */
const MEANT: ReadonlyMap<string, string> = new Map([
  ['r', 'rest'],
  ['rests', 'rest'],
  ['silence', 'rest'],
  ['whole', '1/1'],
  ['semibreve', '1/1'],
  ['half', '1/2'],
  ['minim', '1/2'],
  ['quarter', '1/4'],
  ['crotchet', '1/4'],
  ['eighth', '1/8'],
  ['quaver', '1/8'],
  ['sixteenth', '1/16'],
  ['semiquaver', '1/16'],
  ['triplet', '1/12'],
  ['glissando', 'slide'],
  ['gliss', 'slide'],
  ['portamento', 'slide'],
  ['pizzicato', 'pizz'],
  ['piano', 'p'],
  ['pianissimo', 'pp'],
  ['forte', 'f'],
  ['fortissimo', 'ff'],
  ['cresc', 'crescendo'],
  ['dim', 'diminuendo'],
  ['dimin', 'diminuendo'],
  ['decrescendo', 'diminuendo'],
  ['decresc', 'diminuendo'],
]);

/** `1/4` for `quarter`; undefined for a word that means nothing here. */
export function meantBy(word: string): string | undefined {
  return MEANT.get(word.toLowerCase());
}
