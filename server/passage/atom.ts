import type { BarItem, DirectionItem, Dynamic, EndingItem, HintList, JumpItem, NoteNode, Span } from '../../grammar/tree';
import type { Exact } from '../music/time';
import type { Mark } from './passage';
import type { MotifPlace } from './problem';

/** A bow stroke: everything under it is one object's worth of notes, compared by identity. */
export interface Stroke {
  readonly direction?: 'up' | 'down';
}

interface AtomBase {
  /** On the line that is read; a motif's notes stand at its use. */
  readonly span: Span;
  /** Absent: whatever holds where it is used. */
  readonly duration?: Exact;
  /** Where a motif's note is written, counted from the start of the motif's line. */
  readonly definition?: MotifPlace;
}

export interface EventAtom extends AtomBase {
  readonly kind: 'event';
  readonly notes: readonly NoteNode[];
  readonly slide: boolean;
  readonly stroke?: Stroke;
  /** Printed over it, outermost first; the notes of a group share one object. */
  readonly marks?: readonly Mark[];
  /** Takes no time of its own; `duration` is the value it is printed as. */
  readonly grace?: true;
  /** Hints of the strokes and groups that it stands in, innermost first. */
  readonly around?: readonly HintList[];
  /** Absent: whatever holds where it is used. */
  readonly dynamic?: Dynamic;
  /** The dynamic written straight before it. */
  readonly says?: Dynamic;
}

export interface RestAtom extends AtomBase {
  readonly kind: 'rest';
  /** So many whole bars long. */
  readonly bars?: number;
  /** It only keeps the time of a note that could not be read. */
  readonly unreadable?: true;
  /** Printed over it. */
  readonly marks?: readonly Mark[];
  /** The dynamic written straight before it. */
  readonly says?: Dynamic;
}

export interface BarAtom extends AtomBase {
  readonly kind: 'bar';
  readonly style: BarItem['style'];
}

/** What holds from here on, for a player. */
export interface DirectionAtom extends AtomBase {
  readonly kind: 'direction';
  readonly word: DirectionItem['word'];
}

/** Where the music goes on, beside a bar line. */
export interface JumpAtom extends AtomBase {
  readonly kind: 'jump';
  readonly word: JumpItem['word'];
}

export interface EndingAtom extends AtomBase {
  readonly kind: 'ending';
  readonly times: EndingItem['times'];
}

/** A piece of music with nothing folded: strokes are marks on their notes, motifs are written out. */
export type Atom = EventAtom | RestAtom | BarAtom | DirectionAtom | JumpAtom | EndingAtom;

/** Something while it is being put together. */
export type Mutable<T> = { -readonly [K in keyof T]: T[K] };
