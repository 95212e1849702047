/** Signs over a note (Standard Music Font Layout 1.4), by the word of the language. */
export const MARK_SIGNS: Readonly<Record<string, number>> = {
  staccato: 0xe4a2,
  staccatissimo: 0xe4a6,
  spiccato: 0xe4a6,
  tenuto: 0xe4a4,
  accent: 0xe4a0,
  marcato: 0xe4ac,
  trill: 0xe566,
  'trill-sharp': 0xe566,
  'trill-flat': 0xe566,
  'trill-natural': 0xe566,
  mordent: 0xe56d,
  'inverted-mordent': 0xe56c,
  turn: 0xe567,
  'inverted-turn': 0xe568,
  'pizz-left': 0xe633,
  'pizz-snap': 0xe630,
  breath: 0xe4ce,
  fermata: 0xe4c0,
};

/** Over the sign of a trill, small. */
export const TRILL_ACCIDENTALS: Readonly<Record<string, number>> = {
  'trill-sharp': 0xe262,
  'trill-flat': 0xe260,
  'trill-natural': 0xe261,
};

/** From one stroke through the stem to three. */
export const TREMOLO_SIGNS: readonly number[] = [0xe220, 0xe221, 0xe222];

export const JUMP_SIGNS: Readonly<Record<string, number>> = { segno: 0xe047, coda: 0xe048 };

/** What is printed for a way of playing and for a jump in words. */
export const PRINTED_WORDS: Readonly<Record<string, string>> = {
  pizz: 'pizz.',
  arco: 'arco',
  tasto: 'sul tasto',
  ponticello: 'sul pont.',
  ordinario: 'ord.',
  muted: 'con sord.',
  'open sound': 'senza sord.',
  'to coda': 'To Coda',
  fine: 'Fine',
  'da capo': 'D.C.',
  'da capo al fine': 'D.C. al Fine',
  'da capo al coda': 'D.C. al Coda',
  'dal segno': 'D.S.',
  'dal segno al fine': 'D.S. al Fine',
  'dal segno al coda': 'D.S. al Coda',
};
