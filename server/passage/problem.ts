import type { Fix, Span, Told } from '../../grammar/tree';

/** Every code that reading a passage can report, with what it stands for; each has its page in the rules room. */
export const PASSAGE_CODES = {
  'setting-place': 'a setting where it no longer counts',
  'player-file': 'a player file that is not there, or that has problems itself',
  'setting-twice': 'a setting given twice for the same stretch of music',
  'bar-length': 'a bar that is shorter or longer than its meter',
  'meter-inside-bar': 'a meter that changes before the bar is full',
  'tie-broken': 'a tie into something that is not the same note',
  'hint-contradiction': 'a hint that another hint or the written note rules out',
  'unknown-touch': 'a printed form that no harmonic has',
  'sounding-mismatch': 'a printed form that does not sound the pitch after its =',
  'unknown-motif': 'a word that is neither a note nor a motif',
  'unused-motif': 'a motif that nothing uses',
  'duplicate-motif': 'two motifs of one name',
  'motif-cycle': 'a motif that contains itself',
  'motif-too-long': 'a motif that grows beyond what can be played',
} as const;

/** Whether a value is badly written or can't be had is one to whoever wrote it. */
export type PassageCode = keyof typeof PASSAGE_CODES | 'setting-value';

export type PassageSeverity = 'error' | 'warning' | 'hint';

/** Something wrong between the lines of a well-spelled text. */
export interface PassageProblem extends Told {
  readonly code: PassageCode;
  readonly severity: PassageSeverity;
  /** Best first. */
  readonly fixes: readonly Fix[];
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
