import type { JumpWord, Saying } from '../../grammar/marks';
import type { Dynamic } from '../../grammar/tree';
import type { Key } from '../music/interval';
import type { Meter, Tempo } from '../music/meter';
import type { Exact } from '../music/time';
import type { Asked, Bar, BarRest, NoteSpec, Setup } from './passage';
import type { HarmonicsMode, Keep } from './values';

/** A note that is held over and waits for its continuation. */
export interface HeldNote {
  /** Its index in its own event. */
  readonly note: number;
  readonly asked: Asked;
  readonly harmonic: NoteSpec['harmonic'];
}

/** What was said of music that had not come yet: for the next note, and of the bar that is open. */
export interface Pending {
  readonly directions: readonly Saying[];
  /** A dynamic. */
  readonly says?: Dynamic;
  readonly jumps: readonly JumpWord[];
  readonly ending?: readonly number[];
  readonly rests: readonly BarRest[];
}

export const NOTHING_PENDING: Pending = { directions: [], jumps: [], rests: [] };

/**
 * All that a line of music needs to know of the lines before it. Two equal contexts make the same of
 * the same line, so a line is read again only when one of them changes.
 */
export interface Context {
  readonly setup: Setup;
  readonly tempo: Tempo;
  readonly meter: Meter | undefined;
  /** Where it is not the passage's own. */
  readonly key: Key | undefined;
  readonly clef: Bar['clef'];
  readonly harmonics: HarmonicsMode;
  readonly keep: Keep;
  /** Undefined where none is written yet. */
  readonly dynamic: Dynamic | undefined;
  /** By `pizz`, until `arco`. */
  readonly plucked: boolean;
  readonly duration: Exact;
  /** How much of the current bar is filled. */
  readonly filled: Exact;
  /** The length of the current bar can't be judged: a part of it was unreadable, or its meter changed inside. */
  readonly loose: boolean;
  /** No bar of the passage has been closed yet. */
  readonly firstBar: boolean;
  /** Length of the short first bar, once closed. */
  readonly upbeat: Exact | undefined;
  /** The passage has an event already, so a rest belongs to the event before it. */
  readonly begun: boolean;
  readonly held: readonly HeldNote[];
  readonly pending: Pending;
  /** The file has used up what its motifs may stand for together; further uses stay unread. */
  readonly exhausted: boolean;
}

/** How loud music is taken to be as long as no dynamic is written. */
export const UNMARKED: Dynamic = 'mf';
