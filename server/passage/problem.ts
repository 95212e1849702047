import type { Edit, Span } from '../../grammar/tree';

/** Every code that reading a passage can report, with what it stands for; each has its page in the rules room. */
export const PASSAGE_CODES = {
  'setting-value': 'a value that its setting cannot have',
  'setting-place': 'a setting where it no longer counts',
  'player-file': 'a player file that is not there, or that has problems itself',
  'setting-twice': 'a setting given twice for the same stretch of music',
  'bar-length': 'a bar that is shorter or longer than its meter',
  'meter-inside-bar': 'a meter that changes before the bar is full',
  'tie-broken': 'a tie into something that is not the same note',
  'hint-contradiction': 'a hint that another hint or the written note rules out',
  'unknown-touch': 'a printed form that no harmonic has',
  'sounding-mismatch': 'a printed form that sounds something else than claimed',
  'unknown-motif': 'a name that no motif has',
  'unused-motif': 'a motif that nothing uses',
  'duplicate-motif': 'two motifs of one name',
  'motif-cycle': 'a motif that comes round to itself',
  'motif-too-long': 'a motif that grows beyond what can be played',
} as const;

export type PassageCode = keyof typeof PASSAGE_CODES;

export type PassageSeverity = 'error' | 'warning' | 'hint';

/** Edits that belong together and take one problem away. */
export interface Cure {
  readonly title: string;
  readonly edits: readonly Edit[];
}

/** What a problem tells, and where; all spans are offsets in the file. */
export interface Told {
  readonly span: Span;
  /** What is wrong, why, and what to do, in a player's words. */
  readonly message: string;
  /** Other places that explain this one. */
  readonly related?: readonly { readonly span: Span; readonly message: string }[];
}

/** Something wrong between the lines of a well-spelled text. */
export interface PassageProblem extends Told {
  readonly code: PassageCode;
  readonly severity: PassageSeverity;
  /** Best first. */
  readonly cures: readonly Cure[];
}

/** A place in a motif's definition, counted from the start of the motif's line. */
export interface MotifPlace {
  readonly motif: string;
  readonly span: Span;
}

/** A problem of one line, its spans counted from the line's start, so that it outlives edits elsewhere. */
export interface LineProblem extends Omit<PassageProblem, 'related'> {
  /** Set where a motif's use shows it: the note of the motif that it comes from. Not told again where the motif alone shows it. */
  readonly origin?: MotifPlace;
}

/** The cure that puts `text` in place of the problem's own characters. */
export function replacement(span: Span, text: string): Cure {
  return { title: `Write ${text.trim()}`, edits: [{ span: { start: span.start, end: span.end }, text }] };
}

/** Lifts a span from its line to the file. */
export function lifted(span: Span, lineStart: number): Span {
  return { start: span.start + lineStart, end: span.end + lineStart };
}

/** The same cure with its places counted from the start of the file. */
export function liftedCure(cure: Cure, lineStart: number): Cure {
  return { title: cure.title, edits: cure.edits.map(({ span, text }) => ({ span: lifted(span, lineStart), text })) };
}
