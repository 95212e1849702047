import type { Breaking, JumpWord, MarkWord, Saying, Stress } from '../../grammar/marks';
import type { Dynamic, Finger, Manner, Span, StringNumber, TouchInterval } from '../../grammar/tree';
import type { Style } from '../../grammar/values/value-tree';
import type { Hand } from '../hand/hand';
import type { Instrument } from '../instrument/instrument';
import type { Key } from '../music/interval';
import type { Meter, Tempo } from '../music/meter';
import type { Pitch } from '../music/pitch';
import type { Temperament } from '../music/temperament';
import type { Exact } from '../music/time';

/**
 * A passage with everything settled but the fingering: what must sound, when, on which instrument,
 * under which hand, with which hints. The solver reads nothing else.
 */
export interface Passage {
  /** Empty for a file without a `passage:` line. */
  readonly title: string;
  readonly setup: Setup;
  /** The key it is written in, for the staff; says nothing about tuning. */
  readonly key?: Key;
  readonly events: readonly PassageEvent[];
  /** Index of the file's lines: first (the `passage:` line, or the first line of the file) and one past the last. */
  readonly lines: { readonly first: number; readonly end: number };
  /** Bars in order, with the place of the bar line that closes each. */
  readonly bars: readonly Bar[];
  readonly instructions: readonly Instruction[];
}

/** What is printed over a bar. */
export interface Instruction {
  readonly bar: number;
  readonly text: string;
  /** A rehearsal mark. */
  readonly mark?: true;
}

/** What holds for a whole passage. */
export interface Setup {
  readonly instrument: Instrument;
  readonly hand: Hand;
  /** What the fingering leans to; absent where nobody said. */
  readonly style?: Style;
  readonly temperament: Temperament;
  /** Hz. */
  readonly a4: number;
  /** Whose hand it is, where a player's file says so; `file` is its path as the passage writes it. */
  readonly player?: { readonly name: string; readonly file?: string };
  /** Interned: two passages with equal settings share one object, so caches can go by identity. */
  readonly key: string;
}

/** One note or double stop of the passage, or a rest's worth of silence after it. */
export interface PassageEvent {
  readonly spec: EventSpec;
  /** Where it was written: a motif's notes point at the use, `definition` at the motif. */
  readonly source: EventSource;
  /** Bar number as players count: an upbeat is bar 0, the first full bar 1. */
  readonly bar: number;
  /** Beats into the bar counted from 1, in the meter's beat: `1`, `2`, `5/2`. */
  readonly beat: Exact;
  readonly duration: Exact;
  readonly tempo: Tempo;
  /** Set on the first event of a bow stroke with a written direction. */
  readonly bow?: 'up' | 'down';
  /** The next event is in the same stroke as it is written, and not only because a note is held into it. */
  readonly bowsOn?: true;
  /** Printed over it, outermost first; the notes of a group share one object. */
  readonly marks?: readonly Mark[];
  /** What begins or ends straight before it. */
  readonly directions?: readonly Saying[];
  /** A grace note: the value it is printed as. Its `duration` is 0, the time it sounds is taken from a neighbour. */
  readonly grace?: Exact;
  /** The dynamic written straight before it, whatever held before. */
  readonly says?: Dynamic;
}

/** What is printed over a note, or over several that share it. */
export interface Mark {
  readonly word: MarkWord | Stress;
  /** Of a measured tremolo: the value that the note is repeated in, or that two notes by turns go in. */
  readonly value?: Exact;
}

export interface EventSource {
  /** Index into `Tree.lines`. */
  readonly line: number;
  /** Within that line. */
  readonly span: Span;
  /** One for every note of the spec, in the same order; `hints` covers the brackets. */
  readonly notes: readonly { readonly span: Span; readonly form: Span; readonly hints?: Span }[];
  /** The place in a motif's definition that this event was expanded from. */
  readonly definition?: { readonly line: number; readonly span: Span };
}

export interface Bar {
  readonly number: number;
  readonly firstEvent: number;
  readonly endEvent: number;
  readonly length: Exact;
  readonly meter?: Meter;
  /** Where it is not the passage's own. */
  readonly key?: Key;
  /** Where one is written. */
  readonly clef?: 'treble' | 'alto' | 'tenor' | 'bass';
  /** Under the bracket of an ending of a repeat: the times that it is played. Bars under one bracket share the list. */
  readonly ending?: readonly number[];
  /** Signs at its start (`segno`, `coda`) and words at its end. */
  readonly jumps?: readonly JumpWord[];
  /** A repeat begins here, whatever mark closes the bar before. */
  readonly open?: '|:';
  /** The first of so many bars that are written, and printed, as one rest. */
  readonly together?: number;
  /** Its rests as they are written, in order. */
  readonly rests?: readonly BarRest[];
  /** A hairpin ends at its bar line. */
  readonly endsHairpin?: true;
  readonly close: '|' | '||' | '|:' | ':|' | '';
}

/** A rest with what is printed over or straight before it. */
export interface BarRest {
  /** In whole notes from the start of the bar. */
  readonly onset: Exact;
  readonly marks?: readonly Mark[];
  readonly directions?: readonly Saying[];
  readonly says?: Dynamic;
}

/**
 * What the solver must do for one event. Interned by `key`: equal demands are one object, so a
 * change of the text elsewhere leaves it identical and everything worked out from it stays valid.
 */
export interface EventSpec {
  readonly key: string;
  /** One note, or two to four together. Empty for a passage that opens with a rest. */
  readonly notes: readonly NoteSpec[];
  /** Seconds from this onset to the end of its sound. */
  readonly seconds: number;
  /** Seconds of silence after it, before the next onset. */
  readonly rest: number;
  /** True when the next event is under the same bow stroke. */
  readonly slurred: boolean;
  readonly dynamic: Dynamic;
  /** Slides into its harmonic. */
  readonly slide: boolean;
  /** A second finger is wanted: for the upper note of a trill, or to pluck with the left hand. */
  readonly ornament?: 'trill' | 'plucked';
  /** Semitones that its upper note is altered by, where that is printed; else it is the key's. */
  readonly upper?: number;
  /** Of two notes played by turns, as fast as the fingers can, the second: the first is the event before. */
  readonly alternates?: true;
  /** Without the bow: by `pizz` before it, or a mark of its own. */
  readonly plucked?: true;
  /** Notes held over from the event before: pairs of note indices [there, here]. */
  readonly held: readonly (readonly [number, number])[];
}

export interface NoteSpec {
  readonly asked: Asked;
  /** `must`: a circle, a diamond, or `harmonics: all`; `may`: `harmonics: allowed`; `no`: stopped or open only. */
  readonly harmonic: 'must' | 'may' | 'no';
  readonly pins: Pins;
}

export type Asked =
  | { readonly kind: 'sounding'; readonly pitch: Pitch }
  | { readonly kind: 'artificial'; readonly stop: Pitch; readonly touch: Pitch }
  /** `sounding` is the pitch the editor expects of it (`<>A4 = A5`): other strings and nodes are out. */
  | { readonly kind: 'diamond'; readonly touch: Pitch; readonly sounding?: Pitch };

/** The hints of a note, each one binding. */
export interface Pins {
  readonly string?: StringNumber;
  /** For a single finger: the one that stops, or touches a natural harmonic. */
  readonly finger?: Finger;
  readonly fingers?: { readonly stop: Finger; readonly touch: Finger };
  readonly manner?: Manner;
  readonly interval?: TouchInterval;
  readonly node?: { readonly k: number; readonly n: number };
  readonly position?: number;
  /** Of the whole chord that the note is in. */
  readonly breaking?: Breaking;
  /** Not on an open string. */
  readonly open?: false;
}
