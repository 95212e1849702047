import type { JumpWord, MarkWord } from '../../../grammar/marks';

/** Where MusicXML 4.0 keeps a mark: inside `<notations>`, in a group of its own or by itself. */
export interface MarkElement {
  readonly group?: 'articulations' | 'ornaments' | 'technical';
  readonly name: string;
  /** Over the sign. */
  readonly accidental?: 'sharp' | 'flat' | 'natural';
}

/** Element names: W3C MusicXML 4.0. A grace note, a phrase mark and a tremolo between two notes are no elements of their own kind. */
export const MARK_ELEMENTS: Readonly<Record<Exclude<MarkWord, 'grace' | 'phrase' | 'fingered-tremolo'>, MarkElement>> = {
  staccato: { group: 'articulations', name: 'staccato' },
  staccatissimo: { group: 'articulations', name: 'staccatissimo' },
  spiccato: { group: 'articulations', name: 'spiccato' },
  tenuto: { group: 'articulations', name: 'tenuto' },
  accent: { group: 'articulations', name: 'accent' },
  marcato: { group: 'articulations', name: 'strong-accent' },
  breath: { group: 'articulations', name: 'breath-mark' },
  trill: { group: 'ornaments', name: 'trill-mark' },
  'trill-sharp': { group: 'ornaments', name: 'trill-mark', accidental: 'sharp' },
  'trill-flat': { group: 'ornaments', name: 'trill-mark', accidental: 'flat' },
  'trill-natural': { group: 'ornaments', name: 'trill-mark', accidental: 'natural' },
  mordent: { group: 'ornaments', name: 'mordent' },
  'inverted-mordent': { group: 'ornaments', name: 'inverted-mordent' },
  turn: { group: 'ornaments', name: 'turn' },
  'inverted-turn': { group: 'ornaments', name: 'inverted-turn' },
  tremolo: { group: 'ornaments', name: 'tremolo' },
  'pizz-left': { group: 'technical', name: 'stopped' },
  'pizz-snap': { group: 'technical', name: 'snap-pizzicato' },
  arpeggiato: { name: 'arpeggiate' },
  fermata: { name: 'fermata' },
};

/** What else scores write for the same marks, or for one near to it: then it is told that it was changed. */
const OTHER_NAMES: Readonly<Record<string, { readonly words: readonly MarkWord[]; readonly near?: true }>> = {
  'detached-legato': { words: ['tenuto', 'staccato'] },
  'delayed-turn': { words: ['turn'], near: true },
  'delayed-inverted-turn': { words: ['inverted-turn'], near: true },
  'vertical-turn': { words: ['turn'], near: true },
  shake: { words: ['trill'], near: true },
  'wavy-line': { words: ['trill'], near: true },
  caesura: { words: ['breath'], near: true },
  stress: { words: ['accent'], near: true },
  'soft-accent': { words: ['accent'], near: true },
};

const ELEMENTS = Object.entries(MARK_ELEMENTS) as [MarkWord, MarkElement][];

const BY_NAME = new Map(
  ELEMENTS.filter(([, { accidental }]) => !accidental).map(([word, { name }]) => [
    name,
    { words: [word] as readonly MarkWord[] },
  ]),
);

/** The mark that another becomes by an accidental over it; undefined where it has none such. */
export function withAccidental(word: MarkWord, accidental: string): MarkWord | undefined {
  const { name } = ELEMENTS.find(([other]) => other === word)?.[1] ?? {};
  return ELEMENTS.find(([, other]) => other.name === name && other.accidental === accidental)?.[0];
}

/** The marks that an element of `<notations>` means; undefined where it is none. */
export function marksOf(name: string): { readonly words: readonly MarkWord[]; readonly near?: true } | undefined {
  return BY_NAME.get(name) ?? (Object.hasOwn(OTHER_NAMES, name) ? OTHER_NAMES[name] : undefined);
}

/** A jump as a score prints it, and the attribute of `<sound>` that plays it. */
export const JUMP_PRINTS: Readonly<Record<JumpWord, { readonly print: string; readonly sound: string; readonly sign?: true }>> = {
  segno: { print: 'segno', sound: 'segno', sign: true },
  coda: { print: 'coda', sound: 'coda', sign: true },
  'to coda': { print: 'To Coda', sound: 'tocoda' },
  fine: { print: 'Fine', sound: 'fine' },
  'da capo': { print: 'D.C.', sound: 'dacapo' },
  'da capo al fine': { print: 'D.C. al Fine', sound: 'dacapo' },
  'da capo al coda': { print: 'D.C. al Coda', sound: 'dacapo' },
  'dal segno': { print: 'D.S.', sound: 'dalsegno' },
  'dal segno al fine': { print: 'D.S. al Fine', sound: 'dalsegno' },
  'dal segno al coda': { print: 'D.S. al Coda', sound: 'dalsegno' },
};

/** The attributes of `<sound>` that play a jump, each with the plainest that it plays. */
export const JUMP_SOUNDS: ReadonlyMap<string, JumpWord> = new Map(
  Object.entries(JUMP_PRINTS)
    .map(([word, { sound }]) => [sound, word as JumpWord] as const)
    .filter(([sound], i, all) => all.findIndex(([other]) => other === sound) === i),
);
