/**
 * The tree of a `.passage` text: what was written, and where. It knows nothing of instruments.
 *
 * The text is read line by line, and a line's node depends on that line's characters alone, so an edit leaves the nodes of all other
 * lines as they were (the same objects): every span inside a line node counts from the start of its line; `Line.start` lifts it to the file.
 */

import type { Breaking, DYNAMICS, JumpWord, MarkWord, Saying, Stress } from './marks';
import type { ValueNode, ValueNodes } from './values/value-tree';

/** A stretch of text in UTF-16 code units, `start` included, `end` not. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export interface Word extends Span {
  readonly text: string;
}

/** What stands at `span` becomes `text`. */
export interface Edit {
  readonly span: Span;
  readonly text: string;
}

export interface Tree {
  readonly text: string;
  readonly lines: readonly Line[];
}

/**
 * One line of the file. `start` and `end` are offsets in the file; the line break is not included.
 * Lines of equal text may share one node.
 */
export interface LineOf<N> extends Span {
  readonly node: N;
}

export type Line = LineOf<LineNode>;

export type LineNode = BlankLine | SettingLine | PassageLine | InstructionLine | MotifLine | MusicLine;

interface LineBase {
  /** What is wrong with the spelling of this line, each at a place on the line. */
  readonly problems: readonly SyntaxProblem[];
  /** `// …` to the end of the line, slashes included. */
  readonly comment?: Comment;
}

export interface Comment extends Word {
  readonly check?: CheckComment;
}

/** `// check: lone-third off, little-room hint`; with `check file:` it holds for the whole file. The span begins behind the colon. */
export interface CheckComment extends Span {
  readonly file: boolean;
  readonly levels: ValueNodes['levels'];
}

export interface BlankLine extends LineBase {
  readonly kind: 'blank';
}

/** `key: value`. `value` is trimmed and may be empty. */
export interface SettingLine extends LineBase {
  readonly kind: 'setting';
  readonly key: Word;
  readonly value: Word;
  /** What the value is made of; absent where it is empty or can't be read, or the key is unknown. */
  readonly parts?: ValueNode;
}

/** `passage: NAME`. */
export interface PassageLine extends LineBase {
  readonly kind: 'passage';
  readonly name: Word;
}

/** `> text`, printed on the sheet above the next bar. */
export interface InstructionLine extends LineBase {
  readonly kind: 'instruction';
  readonly text: Word;
}

/** `motif NAME = notes`. */
export interface MotifLine extends LineBase {
  readonly kind: 'motif';
  readonly name: Word;
  readonly items: readonly Item[];
}

export interface MusicLine extends LineBase {
  readonly kind: 'music';
  readonly items: readonly Item[];
}

export type Item =
  | DurationItem
  | DynamicItem
  | DirectionItem
  | JumpItem
  | EndingItem
  | BarItem
  | RestItem
  | StrokeItem
  | GroupItem
  | EventItem
  | MotifUse;

/** A duration from here on, as an exact fraction of a whole note; a trailing dot is already added in. */
export interface DurationItem extends Span {
  readonly kind: 'duration';
  readonly numerator: number;
  readonly denominator: number;
}

export type Dynamic = (typeof DYNAMICS)[number];

export interface DynamicItem extends Span {
  readonly kind: 'dynamic';
  readonly level: Dynamic | Stress;
}

/** `crescendo`, `pizz`, `"dolce"`: holds from here on. */
export interface DirectionItem extends Span {
  readonly kind: 'direction';
  readonly word: Saying;
}

/** `segno`, `da capo al fine`: where the music goes on; beside a bar line. */
export interface JumpItem extends Span {
  readonly kind: 'jump';
  readonly word: JumpWord;
}

/** `ending 1`: the bars up to the next ending, repeat sign or double bar are played these times only. */
export interface EndingItem extends Span {
  readonly kind: 'ending';
  readonly times: readonly number[];
}

/** `staccato`, before a note or before the parentheses around several. */
export interface MarkNode extends Span {
  readonly word: MarkWord;
}

export interface BarItem extends Span {
  readonly kind: 'bar';
  readonly style: '|' | '||' | '|:' | ':|';
}

export interface RestItem extends Span {
  readonly kind: 'rest';
  /** So many whole bars long, whatever duration holds. */
  readonly bars?: number;
  /** Of `REST_MARKS`. */
  readonly marks?: readonly MarkNode[];
  /** Set where no readable note stands in a note's place: it keeps that note's time. */
  readonly unreadable?: string;
}

/** `slur(…)`, `up(…)`, `down(…)`: one bow stroke. */
export interface StrokeItem extends Span {
  readonly kind: 'stroke';
  readonly stroke: 'slur' | 'up' | 'down';
  readonly word: Span;
  readonly items: readonly Item[];
  /** Behind the parenthesis; they hold for every note in it. */
  readonly hints?: HintList;
}

/** `(D5 E5 F#5)[II]`, `staccato(D5 E5)`: notes that a mark or hints, at least one of them, hold for together. */
export interface GroupItem extends Span {
  readonly kind: 'group';
  readonly mark?: MarkNode;
  readonly items: readonly Item[];
  readonly hints?: HintList;
}

/** A note, a double stop or a chord (in the order written). */
export interface EventItem extends Span {
  readonly kind: 'event';
  readonly notes: readonly NoteNode[];
  /** Words before it, such as `staccato`. */
  readonly marks?: readonly MarkNode[];
  /** The word `slide`. */
  readonly slide?: Span;
}

export interface PitchNode extends Span {
  readonly letter: Letter;
  /** In semitones: -2 (`bb`) to 2 (`##`). */
  readonly alter: number;
  readonly octave: number;
}

export type Letter = 'A' | 'B' | 'C' | 'D' | 'E' | 'F' | 'G';

/** One note of an event with its own marks and hints; the span covers all of them. */
export interface NoteNode extends Span {
  readonly form: NoteForm;
  /** `= E7`: the sounding pitch the editor expects; the span starts at the `=`. */
  readonly expected?: Span & { readonly pitch: PitchNode };
  /** The `_` that holds the note over into the next one. */
  readonly tie?: Span;
  readonly hints?: HintList;
}

export type NoteForm = PlainForm | ArtificialForm | DiamondForm;

/** `F#5`, or with the circle `F#5o` (must sound as a harmonic). The span covers pitch and circle. */
export interface PlainForm extends Span {
  readonly kind: 'plain';
  readonly pitch: PitchNode;
  readonly circle?: Span;
}

/** `E5<>A5`: stopped and touched as printed. */
export interface ArtificialForm extends Span {
  readonly kind: 'artificial';
  readonly stop: PitchNode;
  readonly touch: PitchNode;
}

/** `<>A4`: a lone diamond, touched where A4 would be stopped. */
export interface DiamondForm extends Span {
  readonly kind: 'diamond';
  readonly touch: PitchNode;
}

/** `[II 1-4]`; the span covers the brackets. */
export interface HintList extends Span {
  readonly hints: readonly Hint[];
}

export type StringNumber = 1 | 2 | 3 | 4;
/** 0 is the open string, `T` the thumb. */
export type Finger = 0 | 1 | 2 | 3 | 4 | 'T';
export type Manner = 'open' | 'stopped' | 'natural' | 'artificial';
export type TouchInterval = 'minor-third' | 'third' | 'fourth' | 'fifth' | 'sixth' | 'octave';

export type Hint = Span &
  (
    | { readonly kind: 'string'; readonly string: StringNumber }
    | { readonly kind: 'finger'; readonly finger: Finger }
    | { readonly kind: 'fingers'; readonly stop: Finger; readonly touch: Finger }
    | { readonly kind: 'manner'; readonly manner: Manner }
    | { readonly kind: 'interval'; readonly interval: TouchInterval }
    | { readonly kind: 'node'; readonly k: number; readonly n: number }
    | { readonly kind: 'position'; readonly position: number }
    | { readonly kind: 'breaking'; readonly breaking: Breaking }
  );

/** `wave up M2`: a motif name followed by any number of changes, applied from left to right. */
export interface MotifUse extends Span {
  readonly kind: 'motif';
  readonly name: Word;
  readonly changes: readonly MotifChange[];
}

export type MotifChange = Span &
  (
    | { readonly kind: 'interval'; readonly direction: 'up' | 'down'; readonly interval: Word }
    | { readonly kind: 'on'; readonly pitch: PitchNode }
    | {
        readonly kind: 'diatonic';
        readonly direction: 'up' | 'down';
        readonly steps: number;
        readonly tonic: KeyName;
        readonly mode: 'major' | 'minor';
      }
    | { readonly kind: 'backwards' }
  );

/** A key's tonic: a letter with an accidental and no octave. */
export interface KeyName extends Span {
  readonly letter: Letter;
  readonly alter: number;
}

/** Edits that belong together and take one problem away. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
}

/** A spelling problem at an exact place, its spans counted from the start of the line; fixes best first. */
export interface SyntaxProblem extends Span {
  readonly code: string;
  /** What is wrong, why, and what to do, in a player's words. */
  readonly message: string;
  readonly fixes: readonly Fix[];
}
