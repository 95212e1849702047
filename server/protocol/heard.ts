/** What became of the notes of a passage in a recording, as the preview and the page show it. Types only. */

export type Verdict =
  /** At its pitch, from the beginning. */
  | 'spoke'
  /** At its pitch, but only after a while. */
  | 'late'
  /** Another pitch in its place. */
  | 'other'
  | 'not-heard'
  /** Nothing to be sure of: never counted for or against. */
  | 'not-judged';

/** The pitch of a note over its length. */
export interface PitchCurve {
  /** Seconds from the start of the recording, and cents above the written pitch at the recording's own tuning. */
  readonly seconds: readonly number[];
  readonly cents: readonly number[];
}

/** One written note, once played. */
export interface HeardMark {
  /** Indices into the passage's events, and into that event's notes. */
  readonly event: number;
  readonly note: number;
  readonly verdict: Verdict;
  /** For players: `spoke, 4 cents high`, `sounded as the stopped note`. */
  readonly words: string;
  /** Seconds from the start of the recording. */
  readonly onset: number;
  readonly end: number;
  readonly curve: PitchCurve;
}

/** A run through the passage or a part of it. */
export interface HeardRun {
  /** Seconds from the start of the recording. */
  readonly from: number;
  readonly to: number;
  /** From the first note to the last. */
  readonly whole: boolean;
  readonly marks: readonly HeardMark[];
}

export interface Heard {
  /** For players, sentence by sentence. */
  readonly summary: readonly string[];
  /** In the order they were played. */
  readonly runs: readonly HeardRun[];
}

/** One way of sounding notes as a player file writes it (`III 1/4`), and how often it came out clean. */
export interface HeardCount {
  readonly attempt: string;
  readonly clean: number;
  readonly tried: number;
}
