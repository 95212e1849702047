import type { Told } from '../../grammar/problems';
import type { Fix, Span } from '../../grammar/tree';

/** Every code that reading a passage can report, with what it stands for; each has its page in the rules room. */
export const PASSAGE_CODES = [
  /** A setting where it no longer counts. */
  'setting-place',
  /** A player file that is not there, or that has problems itself. */
  'player-file',
  /** A setting given twice for the same stretch of music. */
  'setting-twice',
  /** A rest of whole bars without a meter, or of more than there is room for. */
  'rest-bars',
  /** A bar that is shorter or longer than its meter. */
  'bar-length',
  /** A meter that changes before the bar is full. */
  'meter-inside-bar',
  /** A tie into something that is not the same note. */
  'tie-broken',
  /** A hint that another hint or the written note rules out. */
  'hint-contradiction',
  /** A printed form that no harmonic has. */
  'unknown-touch',
  /** A printed form that does not sound the pitch after its =. */
  'sounding-mismatch',
  /** A word that is neither a note nor a motif. */
  'unknown-motif',
  /** A motif that nothing uses. */
  'unused-motif',
  /** Two motifs of one name. */
  'duplicate-motif',
  /** A motif that contains itself. */
  'motif-cycle',
  /** A motif that grows beyond what can be played. */
  'motif-too-long',
] as const;

/** Whether a value is badly written or can't be had is one to whoever wrote it. */
export type PassageCode = (typeof PASSAGE_CODES)[number] | 'setting-value';

export type PassageSeverity = 'error' | 'warning' | 'hint';

/** Something wrong between the lines of a well-spelled text. */
export interface PassageProblem extends Told {
  readonly code: PassageCode;
  readonly severity: PassageSeverity;
  /** Best first. */
  readonly fixes: readonly Fix[];
}

/** An error at a place; a node stands for its own place. */
export function error(
  code: PassageCode,
  { start, end }: Span,
  message: string,
  fixes: readonly Fix[] = [],
): Omit<PassageProblem, 'related'> {
  return { code, severity: 'error', span: { start, end }, message, fixes };
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
