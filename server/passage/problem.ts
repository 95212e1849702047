import type { Span } from '../../grammar/tree';

/** Every code that reading a passage can report; each has its page in the rules room. */
export type PassageCode =
  | 'setting-value'
  | 'setting-place'
  | 'setting-twice'
  | 'bar-length'
  | 'meter-inside-bar'
  | 'tie-broken'
  | 'hint-contradiction'
  | 'unknown-touch'
  | 'sounding-mismatch'
  | 'unknown-motif'
  | 'unused-motif'
  | 'duplicate-motif'
  | 'motif-cycle'
  | 'motif-too-long';

export type PassageSeverity = 'error' | 'warning' | 'hint';

/** Edits that belong together and take one problem away. */
export interface Cure {
  readonly title: string;
  readonly edits: readonly { readonly span: Span; readonly text: string }[];
}

/** Something wrong between the lines of a well-spelled text. All spans are offsets in the file. */
export interface PassageProblem {
  readonly code: PassageCode;
  readonly severity: PassageSeverity;
  readonly span: Span;
  /** What is wrong, why, and what to do, in a player's words. */
  readonly message: string;
  /** Best first. */
  readonly cures: readonly Cure[];
  readonly related?: readonly { readonly span: Span; readonly message: string }[];
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
