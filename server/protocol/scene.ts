/**
 * One document as the preview shows it: plain data, no functions, safe to send as JSON. Built by
 * `server/scene` from passage and solution; drawn by the webview, the HTML page and the sheet.
 * Lengths are mm from the nut along the string; pitches are spelled as the passage language does.
 */
import type { Place } from './place';

export interface Scene {
  readonly uri: string;
  readonly version: number;
  readonly passages: readonly ScenePassage[];
}

export interface ScenePassage {
  /** Empty for a file without a `passage:` line. */
  readonly title: string;
  /** The key it is written in, where it names one. `tonic` is a letter with its accidental, `F#`. */
  readonly key?: { readonly tonic: string; readonly mode: 'major' | 'minor' };
  readonly board: SceneBoard;
  readonly events: readonly SceneEvent[];
  readonly bars: readonly SceneBar[];
  readonly instructions: readonly { readonly bar: number; readonly text: string; readonly mark?: true }[];
  /** Whose or which, to be read before «hand»: `medium`, `Ines’s`. */
  readonly hand: string;
  /** Chance that every note speaks in tune, 0 to 1. */
  readonly clean: number;
  /** How a run of it comes out, in words: `clean 8 times in 10`, of a long one `2 spots at risk`. */
  readonly run: string;
  /** Nats. */
  readonly cost: number;
  /** Index of the hardest event, -1 in an empty passage. */
  readonly hardest: number;
  /** What to say about strain; set only where the hand opens past comfortable. */
  readonly caution?: string;
}

/**
 * What makes one scene of a document into the next, as `server/scene/change.ts` finds and applies it: a few events for an edited
 * note, however long the passage.
 */
export interface SceneChange {
  /** Versions that it leads from and to. */
  readonly from: number;
  readonly version: number;
  /** One for each passage; there are as many as there were. */
  readonly passages: readonly PassageChange[];
}

export interface PassageChange {
  readonly facts: Omit<ScenePassage, 'board' | 'instructions' | 'events' | 'bars'>;
  /** Absent where it is what it was. */
  readonly board?: SceneBoard;
  readonly instructions?: ScenePassage['instructions'];
  readonly events: EventsChange;
  readonly bars: Splice<BarChange>;
}

/** `put` stands in place of the `gone` items from `at` on; what follows moves along. */
export interface Splice<T> {
  readonly at: number;
  readonly gone: number;
  readonly put: readonly T[];
}

/** The events after those that were put in place are the same but for where they stand; onsets follow from what is before them. */
export interface EventsChange extends Splice<SceneEvent> {
  /** By how many lines and bars they move. */
  readonly lines: number;
  readonly bars: number;
  /** Beats of the first so many of them, where any has another beat than before. */
  readonly beats: readonly string[];
}

/** A bar; its pieces in place of those of the bar that stood in its place, if there was one. */
export interface BarChange extends Omit<SceneBar, 'pieces'> {
  readonly pieces: Splice<ScenePiece>;
}

export interface SceneBar {
  /** As players count: an upbeat is bar 0. */
  readonly number: number;
  readonly firstEvent: number;
  readonly endEvent: number;
  /** Fraction of a whole note. */
  readonly length: string;
  /** A repeat begins here, whatever closes the bar before. */
  readonly open?: '|:';
  /** `|`, `||`, `|:`, `:|` or empty. */
  readonly close: string;
  /** `4/4`, where set. */
  readonly meter?: string;
  /** Where it is not the passage's own. */
  readonly key?: ScenePassage['key'];
  /** `tenor`, where one is written. */
  readonly clef?: 'treble' | 'alto' | 'tenor' | 'bass';
  /** Times that it is played, under the bracket of an ending. */
  readonly ending?: readonly number[];
  /** `segno`, `da capo al fine`. */
  readonly jumps?: readonly string[];
  /** A hairpin ends at its bar line. */
  readonly endsHairpin?: true;
  /** The first of so many bars that are printed as one rest. */
  readonly together?: number;
  /** What it holds, in order and without gaps. */
  readonly pieces: readonly ScenePiece[];
}

/** A note, double stop or rest of a bar. */
export interface ScenePiece {
  /** Fraction of a whole note. */
  readonly length: string;
  /** Index into `ScenePassage.events`; absent for a rest. */
  readonly event?: number;
  /** Of a rest: what is printed over it and straight before it. */
  readonly marks?: readonly SceneMark[];
  readonly directions?: readonly string[];
  readonly says?: string;
}

/** The instrument to scale. */
export interface SceneBoard {
  readonly family: 'violin' | 'viola' | 'cello';
  readonly name: string;
  /** Nut to bridge. */
  readonly length: number;
  /** How far from the nut a string can still be pressed down. */
  readonly fingerboard: number;
  /** Between neighbouring strings. */
  readonly spacing: { readonly nut: number; readonly bridge: number };
  /** How much of a string one finger covers. */
  readonly contact: number;
  /** I first. */
  readonly strings: readonly SceneString[];
  /** Points of division of the open strings where a natural harmonic has tolerance left, nearest the nut first. */
  readonly nodes: readonly SceneNode[];
  /** Where the first finger is in the usual positions, `1st` to `7th`, mm from the nut. */
  readonly positions: readonly { readonly name: string; readonly mm: number }[];
  /** Where the neck ends and the hand goes over to three fingers and the thumb: cello only. */
  readonly neckEnd?: number;
}

export interface SceneString {
  /** `I` to `IV`. */
  readonly name: string;
  readonly pitch: string;
  readonly hz: number;
  /** N. */
  readonly tension: number;
  /** g/m. */
  readonly density: number;
}

export interface SceneNode {
  /** Index into `strings`. */
  readonly string: number;
  readonly k: number;
  readonly n: number;
  readonly mm: number;
  /** Either side. */
  readonly tolerance: number;
  readonly sounding: string;
}

/** How the bow breaks a chord: notes of each stroke, the lowest first. */
export interface SceneBreaking {
  readonly strokes: '1+2' | '2+1' | '2+2' | 'together';
  /** The hand can't hold all of it: the upper notes are fingered while the bow goes over to them. */
  readonly inHalves?: true;
  /** The text asks for it. */
  readonly asked?: true;
}

export interface SceneEvent {
  readonly index: number;
  readonly range: { readonly start: Place; readonly end: Place };
  readonly bar: number;
  readonly beat: string;
  /** Fraction of a whole note, `1/8`. */
  readonly duration: string;
  /** Seconds from the start of the passage, seconds of sound, seconds of silence after it. */
  readonly onset: number;
  readonly seconds: number;
  readonly silence: number;
  /** `assumed` where nobody wrote it. */
  readonly tempo: { readonly beat: string; readonly bpm: number; readonly assumed?: true };
  readonly dynamic: string;
  /** Its fingers are written in the text. */
  readonly fingered?: true;
  /** The dynamic written straight before it. */
  readonly says?: string;
  /** The next event is under the same bow. */
  readonly slurred: boolean;
  readonly slide: boolean;
  /** Of two notes played by turns the second; the first is the event before. */
  readonly alternates?: true;
  /** Under an ornament: semitones to the notes of the key above and below. */
  readonly neighbours?: { readonly above: number; readonly below: number };
  /** Without the bow. */
  readonly plucked?: true;
  readonly bow?: 'up' | 'down';
  /** Words for what is printed over it. */
  readonly marks?: readonly SceneMark[];
  /** What begins or ends straight before it: `crescendo`, `pizz`. */
  readonly directions?: readonly string[];
  /** A grace note: the value it is printed as. */
  readonly grace?: string;
  /** Empty where the event can't be played; `problem` then says why. */
  readonly notes: readonly SceneNote[];
  /** What the editor asked for, `E5<>A5` or `D6o+A6o`. */
  readonly written: string;
  /** The same asked for, note by note, for the staff of an event that can't be played. */
  readonly asked: readonly SceneAsked[];
  readonly problem?: string;
  /** In words: `1st position`, `upper 3rd position`, `thumb position`. */
  readonly position?: string;
  /** The finger with which a cellist's hand opens; an `x` is printed before it. */
  readonly extends?: string;
  /** Where the first finger falls or would fall. */
  readonly handMm?: number;
  /** One finger covers two strings. */
  readonly barred: boolean;
  readonly breaking?: SceneBreaking;
  /** Chance that all its notes speak in tune. */
  readonly chance?: number;
  /** Its share of the passage's cost, dearest term first. */
  readonly terms: readonly { readonly name: string; readonly meaning: string; readonly nats: number }[];
  /** A few sentences a screen reader can say: what sounds, how, where, how sure. */
  readonly account: string;
}

export interface SceneMark {
  readonly word: string;
  /** Of a measured tremolo: strokes through the stem. */
  readonly strokes?: number;
  /** Of a phrase mark: it begins with this note. */
  readonly opens?: true;
}

export type SceneAsked =
  | { readonly kind: 'sounding'; readonly pitch: string; readonly harmonic: boolean }
  | { readonly kind: 'artificial'; readonly stop: string; readonly touch: string }
  | { readonly kind: 'diamond'; readonly touch: string };

export interface SceneNote {
  /** `I` to `IV`, and its index into `SceneBoard.strings`. */
  readonly string: string;
  readonly stringIndex: number;
  readonly kind: 'open' | 'stopped' | 'natural' | 'artificial';
  /** 1 for stopped and open notes. */
  readonly partial: number;
  readonly sounding: string;
  readonly hz: number;
  /** Off equal temperament at the file's A4. */
  readonly cents: number;
  readonly interval?: string;
  readonly stop?: SceneFinger;
  readonly touch?: SceneFinger & { readonly fraction: string };
  /** Sounding length: nut or stopping finger to bridge. */
  readonly length: number;
  /** Either side of the deciding finger: the touching one of a harmonic, the stopping one of a stopped note. */
  readonly tolerance?: number;
  readonly held: boolean;
}

export interface SceneFinger {
  readonly pitch: string;
  /** `1` to `4`, `T`, `0`. */
  readonly finger: string;
  readonly mm: number;
}

/** Another way to play an event, sent when someone looks at it. */
export interface SceneAlternative {
  /** As the solver counts an event's alternatives, cheapest first. */
  readonly index: number;
  /** «II natural 1/3, finger 2». */
  readonly label: string;
  /** What choosing it costs the whole passage, nats. */
  readonly extraCost: number;
  readonly notes: readonly SceneNote[];
  readonly handMm: number;
  readonly barred: boolean;
}
