import { type DirectionWord, JUMPS, type JumpWord } from '../../../grammar/marks';

/** How a direction is printed, the first spelling being ours. */
const PRINTED: Readonly<Partial<Record<DirectionWord, readonly string[]>>> = {
  pizz: ['pizz.', 'pizz', 'pizzicato'],
  arco: ['arco', 'arco.', 'coll’arco'],
  tasto: ['sul tasto', 'sulla tastiera', 's.t.', 'flautando'],
  ponticello: ['sul pont.', 'sul ponticello', 's.p.', 'sul pont'],
  ordinario: ['ord.', 'ordinario', 'pos. ord.', 'modo ordinario', 'ord', 'naturale', 'nat.'],
  muted: ['con sord.', 'con sordino', 'con sordini', 'con sord'],
  'open sound': ['senza sord.', 'senza sordino', 'senza sordini', 'senza sord'],
};

const DIRECTION_BY_PRINT = new Map(
  Object.entries(PRINTED).flatMap(([word, spellings]) => spellings.map((spelling) => [spelling, word as DirectionWord])),
);

/** The direction that a printed text is, and nothing else beside it. */
export function directionOf(text: string): DirectionWord | undefined {
  return DIRECTION_BY_PRINT.get(text.trim().toLowerCase().replaceAll("'", '’'));
}

export function printedDirection(word: DirectionWord): string | undefined {
  return PRINTED[word]?.[0];
}

const JUMP_WORDS: ReadonlySet<string> = new Set(JUMPS.map(({ word }) => word));

/** The jump that a printed text is: `D.C. al Fine`, `Da Capo`, `Fine`. */
export function jumpOf(text: string): JumpWord | undefined {
  const plain = text
    .trim()
    .toLowerCase()
    .replace(/^d\.?\s*c\.?(?=\s|$)/, 'da capo')
    .replace(/^d\.?\s*s\.?(?=\s|$)/, 'dal segno')
    .replace(/^da coda$/, 'to coda')
    .replace(/\.$/, '')
    .replace(/\s+/g, ' ');
  return JUMP_WORDS.has(plain) ? (plain as JumpWord) : undefined;
}
