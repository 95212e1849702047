import type { PitchCurve, Verdict } from '../protocol/heard';
import type { Intonation } from './curve';
import type { Candidate } from './expected';

/** One written note, once played. */
export interface HeardNote {
  /** Indices into the written passage's events, and into that event's notes. */
  readonly event: number;
  readonly note: number;
  readonly verdict: Verdict;
  /** What sounded instead, of another pitch. */
  readonly instead?: Candidate;
  /** Seconds from the start of the recording. */
  readonly onset: number;
  readonly end: number;
  /** How long after its time it spoke, ms. */
  readonly late?: number;
  /** Of what sounded, against the note it is taken for, at the recording's own tuning. */
  readonly intonation?: Intonation;
  readonly curve: PitchCurve;
  /** 0 to 1: how clearly the recording says so. */
  readonly sure: number;
}

/** A run through the passage or a part of it. */
export interface HeardTake {
  /** Seconds from the start of the recording. */
  readonly from: number;
  readonly to: number;
  /** Times as long as written. */
  readonly pace: number;
  /** From the first note to the last. */
  readonly whole: boolean;
  readonly notes: readonly HeardNote[];
}
