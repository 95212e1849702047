import { later } from '../server/l10n/translate';
import type { Dynamic } from './tree';

/** A word that stands before a note, or before the parentheses around several, and says what is printed over them. */
export interface MarkKind {
  readonly word: string;
  /** One sentence in a player's words. */
  readonly meaning: string;
}

/** Marks over notes, in the order they are printed from the note outward. */
export const MARKS = [
  { word: 'staccato', meaning: later('Short, with a dot: about half of the written time sounds.') },
  { word: 'staccatissimo', meaning: later('Very short, with a wedge.') },
  { word: 'spiccato', meaning: later('Off the string: the bow bounces.') },
  { word: 'tenuto', meaning: later('Held to its full length, with a line.') },
  { word: 'accent', meaning: later('With a stronger beginning.') },
  { word: 'marcato', meaning: later('Marked: stronger than an accent.') },
  {
    word: 'tremolo',
    meaning: later('Repeated as fast as the bow can; tremolo(1/16 A5) repeats at that value. The duration is the total length.'),
  },
  {
    word: 'fingered-tremolo',
    meaning: later(
      'Two notes by turns, as fast as the fingers can: fingered-tremolo(A5 C6). The duration is that of both together.',
    ),
  },
  { word: 'trill', meaning: later('Between the note and the one above it.') },
  { word: 'trill-sharp', meaning: later('A trill with a sharp over it: the upper note is the next letter, sharp.') },
  { word: 'trill-flat', meaning: later('A trill with a flat over it: the upper note is the next letter, flat.') },
  { word: 'trill-natural', meaning: later('A trill with a natural over it: the upper note is the next letter, natural.') },
  { word: 'mordent', meaning: later('The note, the one below, the note.') },
  { word: 'inverted-mordent', meaning: later('The note, the one above, the note.') },
  { word: 'turn', meaning: later('The note above, the note, the one below, the note.') },
  { word: 'inverted-turn', meaning: later('The note below, the note, the one above, the note.') },
  { word: 'pizz-left', meaning: later('This note plucked by the left hand.') },
  { word: 'pizz-snap', meaning: later('This note plucked so that the string snaps against the fingerboard.') },
  { word: 'arpeggiato', meaning: later('A chord broken from the lowest note up.') },
  { word: 'breath', meaning: later('A short break after the note.') },
  { word: 'fermata', meaning: later('Held longer than written, as long as the player likes.') },
  { word: 'grace', meaning: later('Grace notes before a note, taking their time from it: grace(1/16 G5 A5) B5.') },
  { word: 'phrase', meaning: later('A phrase mark over notes of several bows.') },
] as const satisfies readonly MarkKind[];

export type MarkWord = (typeof MARKS)[number]['word'];

/** The marks that can stand over a rest as well. */
export const REST_MARKS: readonly MarkWord[] = ['fermata', 'breath'];

/** Softest first. */
export const DYNAMICS = ['ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff'] as const;

/** Stresses on one note; those that end in p are soft from there on. */
export const STRESSES = ['sf', 'sfz', 'sffz', 'fz', 'rf', 'rfz', 'sfp', 'fp'] as const;

export type Stress = (typeof STRESSES)[number];

export function isStress(word: string): word is Stress {
  return (STRESSES as readonly string[]).includes(word);
}

/** The dynamic that holds behind a sign: a stress alone changes none, `fp` leaves it soft. */
export function levelAfter(level: Dynamic | Stress): Dynamic | undefined {
  if (!isStress(level)) return level;
  return level.endsWith('p') ? 'p' : undefined;
}

/** Words between notes that hold from there on. */
export const DIRECTIONS = [
  { word: 'crescendo', meaning: later('Louder, until the next dynamic or «end crescendo».') },
  { word: 'diminuendo', meaning: later('Softer, until the next dynamic or «end diminuendo».') },
  { word: 'end crescendo', meaning: later('The hairpin ends before the next note.') },
  { word: 'end diminuendo', meaning: later('The hairpin ends before the next note.') },
  { word: 'pizz', meaning: later('Plucked from here on.') },
  { word: 'arco', meaning: later('Bowed again from here on.') },
  { word: 'tasto', meaning: later('Bowed over the fingerboard from here on.') },
  { word: 'ponticello', meaning: later('Bowed close to the bridge from here on.') },
  { word: 'ordinario', meaning: later('Bowed in the usual place again.') },
  { word: 'muted', meaning: later('With the mute from here on.') },
  { word: 'open sound', meaning: later('Without the mute from here on.') },
] as const satisfies readonly MarkKind[];

export type DirectionWord = (typeof DIRECTIONS)[number]['word'];

/** What is printed over the note or rest that follows, in quotation marks. */
export type QuotedText = `"${string}"`;

/** What stands before a note and is printed over or under it. */
export type Saying = DirectionWord | QuotedText;

/** The text between the quotation marks; undefined for a word of the language. */
export function quotedText(saying: string): string | undefined {
  return saying.startsWith('"') ? saying.slice(1, -1) : undefined;
}

/** Hints of a chord, how the bow breaks it: so many of its lowest notes, then the others; or all at once. */
export const BREAKINGS = ['1+2', '2+1', '2+2', 'together'] as const;

export type Breaking = (typeof BREAKINGS)[number];

/** Words beside a bar line that say where the music goes on. */
export const JUMPS = [
  { word: 'segno', meaning: later('The sign that «dal segno» goes back to; it stands at the start of a bar.') },
  { word: 'coda', meaning: later('The coda begins with this bar.') },
  { word: 'to coda', meaning: later('On the last time from here to the coda; it stands at the end of a bar.') },
  { word: 'fine', meaning: later('The end, on the last time; it stands at the end of a bar.') },
  { word: 'da capo al fine', meaning: later('From the beginning, up to «fine».') },
  { word: 'da capo al coda', meaning: later('From the beginning, and at «to coda» to the coda.') },
  { word: 'da capo', meaning: later('From the beginning.') },
  { word: 'dal segno al fine', meaning: later('From the sign, up to «fine».') },
  { word: 'dal segno al coda', meaning: later('From the sign, and at «to coda» to the coda.') },
  { word: 'dal segno', meaning: later('From the sign.') },
] as const satisfies readonly MarkKind[];

export type JumpWord = (typeof JUMPS)[number]['word'];

/** The words of a list as they stand in a pattern, longer ones before their beginnings, any space between their parts. */
export function wordsPattern(words: readonly string[]): string {
  return [...words]
    .sort((a, b) => b.length - a.length)
    .map((word) => word.replaceAll(' ', String.raw`\s+`))
    .join('|');
}

/** One of these words as it was written, its spaces made one. */
export function plainWord<W extends string>(image: string): W {
  return image.replace(/\s+/g, ' ') as W;
}
