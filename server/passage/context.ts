import type { JumpWord, Saying } from '../../grammar/marks';
import type { Dynamic } from '../../grammar/tree';
import type { Key } from '../music/interval';
import type { Meter, Tempo } from '../music/meter';
import type { Exact } from '../music/time';
import { type Keep, sameKeep } from './keep';
import type { Asked, Bar, BarRest, NoteSpec, Setup } from './passage';
import { sameRests } from './rests';
import type { HarmonicsMode } from './values';

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

/** True when two contexts say the same. */
export function sameContext(a: Context, b: Context): boolean {
  return (
    a === b ||
    (a.setup === b.setup &&
      a.harmonics === b.harmonics &&
      sameKeep(a.keep, b.keep) &&
      a.dynamic === b.dynamic &&
      a.plucked === b.plucked &&
      a.loose === b.loose &&
      a.firstBar === b.firstBar &&
      a.begun === b.begun &&
      a.exhausted === b.exhausted &&
      sameTempo(a.tempo, b.tempo) &&
      a.meter?.count === b.meter?.count &&
      a.meter?.unit === b.meter?.unit &&
      a.duration === b.duration &&
      a.filled === b.filled &&
      a.upbeat === b.upbeat &&
      sameKey(a.key, b.key) &&
      a.clef === b.clef &&
      samePending(a.pending, b.pending) &&
      (a.held.length || b.held.length ? JSON.stringify(a.held) === JSON.stringify(b.held) : true))
  );
}

function samePending({ rests, ...a }: Pending, { rests: others, ...b }: Pending): boolean {
  return sameRests(rests, others) && JSON.stringify(a) === JSON.stringify(b);
}

export function sameKey(a: Key | undefined, b: Key | undefined): boolean {
  return a === b || (a?.mode === b?.mode && a?.tonic.letter === b?.tonic.letter && a?.tonic.alter === b?.tonic.alter);
}

function sameTempo(a: Tempo, b: Tempo): boolean {
  return a === b || (a.bpm === b.bpm && a.assumed === b.assumed && a.beat.equals(b.beat));
}
