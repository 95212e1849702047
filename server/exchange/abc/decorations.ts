import type { MarkWord } from '../../../grammar/marks';

/**
 * Decorations of ABC 2.1 (section 4.14, and the short forms of 4.14's table) that are printed over a note, by the names
 * the library gives them, as marks of a passage. `near` are those that a passage has no mark of its own for.
 */
const MARKS: Readonly<Record<string, { readonly words: readonly MarkWord[]; readonly near?: true; readonly strokes?: number }>> =
  {
    staccato: { words: ['staccato'] },
    wedge: { words: ['staccatissimo'] },
    tenuto: { words: ['tenuto'] },
    accent: { words: ['accent'] },
    umarcato: { words: ['marcato'] },
    marcato: { words: ['marcato'] },
    trill: { words: ['trill'] },
    trillh: { words: ['trill'] },
    'trill(': { words: ['trill'] },
    // The lower mordent is the one with the stroke, the upper one (pralltriller) goes up.
    mordent: { words: ['mordent'] },
    lowermordent: { words: ['mordent'] },
    uppermordent: { words: ['inverted-mordent'] },
    pralltriller: { words: ['inverted-mordent'] },
    turn: { words: ['turn'] },
    turnx: { words: ['turn'], near: true },
    invertedturn: { words: ['inverted-turn'] },
    invertedturnx: { words: ['inverted-turn'], near: true },
    roll: { words: ['turn'], near: true },
    irishroll: { words: ['turn'], near: true },
    arpeggio: { words: ['arpeggiato'] },
    fermata: { words: ['fermata'] },
    invertedfermata: { words: ['fermata'] },
    breath: { words: ['breath'] },
    '+': { words: ['pizz-left'] },
    snap: { words: ['pizz-snap'] },
    '/': { words: ['tremolo'], strokes: 1 },
    trem1: { words: ['tremolo'], strokes: 1 },
    '//': { words: ['tremolo'], strokes: 2 },
    trem2: { words: ['tremolo'], strokes: 2 },
    '///': { words: ['tremolo'] },
    trem3: { words: ['tremolo'] },
    '////': { words: ['tremolo'] },
    trem4: { words: ['tremolo'] },
  };

export function marksOfDecoration(name: string): (typeof MARKS)[string] | undefined {
  return Object.hasOwn(MARKS, name) ? MARKS[name] : undefined;
}

/** Decorations that stand between notes: dynamics as they are, and these. */
const WORDS: Readonly<Record<string, string>> = {
  'crescendo(': 'crescendo',
  'diminuendo(': 'diminuendo',
  'crescendo)': 'end',
  'diminuendo)': 'end',
};

const DYNAMIC = /^(?:p{1,4}|f{1,4}|mp|mf|sfz)$/;

/** The word of a passage before a note; `pppp` and `ffff` are a passage's softest and loudest. */
export function wordOfDecoration(name: string): { readonly word: string; readonly beyond?: true } | undefined {
  if (Object.hasOwn(WORDS, name)) return { word: WORDS[name] as string };
  if (!DYNAMIC.test(name)) return undefined;
  return name.length > 3 ? { word: name.slice(1), beyond: true } : { word: name };
}

/** Jumps as they are printed. */
const JUMPS: Readonly<Record<string, string>> = {
  segno: 'segno',
  coda: 'coda',
  fine: 'fine',
  'D.S.': 'dal segno',
  'D.C.': 'da capo',
  'D.C.alcoda': 'da capo al coda',
  'D.C.alfine': 'da capo al fine',
  'D.S.alcoda': 'dal segno al coda',
  'D.S.alfine': 'dal segno al fine',
};

export function jumpOfDecoration(name: string): string | undefined {
  return Object.hasOwn(JUMPS, name) ? JUMPS[name] : undefined;
}

/** What a passage has no need of: layout, and the ends of what began before. */
export const IGNORED: ReadonlySet<string> = new Set(['trill)', 'beambr1', 'beambr2', 'xstem', 'editorial', 'courtesy', '']);
