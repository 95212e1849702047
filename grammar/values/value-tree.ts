import type { KeyName, PitchNode, Span, StringNumber, TouchInterval, Word } from '../tree';

/**
 * What stands behind a colon, in parts and with their places (counted from the start of the line). How a value is written is
 * settled here; whether an instrument, a hand or a player can have it is asked by those who know them.
 */

export interface NumberNode extends Span {
  readonly value: number;
}

/** A word of a closed list, in its usual spelling. */
export interface Keyword<W extends string> extends Span {
  readonly word: W;
}

/** `3/4`. */
export interface FractionNode extends Span {
  readonly above: NumberNode;
  readonly below: NumberNode;
  /** The dot that adds half. */
  readonly dotted?: boolean;
}

/** `325mm`, `16in`, `3/4`, or a word that names no size. */
export type SizeNode = Span & ({ readonly mm: number } | { readonly name: string });

/** `1-4 98`: two fingers in capitals, and mm. */
export interface ReachNode extends Span {
  readonly pair: Word;
  readonly mm: NumberNode;
}

/** What each kind of value is made of. */
export interface ValueNodes {
  /** In the writer's own words; may be empty. */
  readonly text: Word;
  /** Of a file. */
  readonly path: Word;
  readonly instrument: { readonly family: Keyword<'violin' | 'viola' | 'cello'>; readonly size?: SizeNode };
  readonly tuning: { readonly word: 'fifths' | 'equal' } | { readonly pitches: readonly PitchNode[] };
  readonly standard: { readonly hz: NumberNode };
  readonly hand:
    | { readonly word: 'small' | 'medium' | 'large' }
    | { readonly age: NumberNode }
    | { readonly reaches: readonly ReachNode[] };
  readonly tempo: { readonly beat: FractionNode; readonly bpm: NumberNode };
  readonly meter: { readonly count: NumberNode; readonly unit: NumberNode };
  readonly key: { readonly tonic: KeyName; readonly mode: 'major' | 'minor' };
  readonly temperament: { readonly word: 'equal' | 'pythagorean' } | { readonly word: 'just'; readonly tonic: KeyName };
  readonly level: { readonly word: 'student' | 'advanced' | 'professional' };
  readonly style: { readonly word: Style };
  readonly harmonics: { readonly word: 'marked' | 'all' | 'allowed' };
  readonly clef: { readonly word: 'treble' | 'alto' | 'tenor' | 'bass' | 'automatic' };
  /** Empty for `free`. */
  readonly keep: readonly KeepNode[];
  /** Of a reach: per cent of the most, or mm. */
  readonly comfort: { readonly percent: NumberNode } | { readonly reaches: readonly ReachNode[] };
  readonly cents: NumberNode;
  readonly millimetres: NumberNode;
  readonly tried: TriedNode;
  /** How many came out clean, of how many. */
  readonly counts: { readonly clean: NumberNode; readonly tried: NumberNode };
  readonly levels: readonly LevelNode[];
}

export type ValueKind = keyof ValueNodes;
/** Any value in its parts. */
export type ValueNode = ValueNodes[ValueKind];

/** `II`, `3rd` or `no open strings`. */
export type KeepNode = Span & ({ readonly string: StringNumber } | { readonly position: number } | { readonly open: false });

/** `III 1/5`: a string, and how it was made to sound. */
export interface TriedNode {
  readonly string: StringNumber;
  readonly manner: Keyword<'stopped' | TouchInterval> | FractionNode;
}

/** `lone-third off` in a check comment. */
export interface LevelNode {
  readonly code: Word;
  readonly level?: Word;
}

/** What a fingering leans to where several would do. */
export type Style = 'safe' | 'singing' | 'brilliant';
