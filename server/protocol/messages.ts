/**
 * What client and server say to each other beyond the language server protocol. Types and names only:
 * both sides import this file, so it may import nothing but types.
 */
import type { Heard, HeardCount } from './heard';
import type { Place } from './place';
import type { Scene, SceneAlternative, SceneChange } from './scene';

/** Ids of the languages of passage and player files. */
export const LANGUAGE = 'passage';
export const PLAYER_LANGUAGE = 'player';

/**
 * Client to server: the scene of one document, as solved. Answers null while the document is unknown. A client that has a scene
 * says by `have` which one, and where the server knows it still, it gets only what has changed.
 */
export const SCENE_REQUEST = 'passagework/scene';
export interface SceneParams {
  readonly uri: string;
  /** `stamp` of the reply that the scene came with, or the last change to it. */
  readonly have?: string;
}
export type SceneReply =
  | { readonly stamp: string; readonly scene: Scene }
  /** To be made to the scene of the stamp that was asked with. */
  | { readonly stamp: string; readonly change: SceneChange }
  | null;

/**
 * Client to server: the other ways to play one event, cheapest first, asked for when someone looks at it: a scene with
 * those of every event would be too large to send on every edit. Null when `version` is stale.
 */
export const ALTERNATIVES_REQUEST = 'passagework/alternatives';
export interface AlternativesParams {
  readonly uri: string;
  readonly version: number;
  readonly passage: number;
  readonly event: number;
}
export type AlternativesReply = readonly SceneAlternative[] | null;

/** Server to client: a document has a new solution; ask for its scene if you show it. */
export const SOLVED_NOTIFICATION = 'passagework/solved';
export interface SolvedParams {
  readonly uri: string;
  readonly version: number;
}

/** Client to server: the edits that write alternative `alternative` of event `event` into the text. Null when `version` is stale. */
export const PIN_REQUEST = 'passagework/pin';
export interface PinParams {
  readonly uri: string;
  readonly version: number;
  readonly passage: number;
  readonly event: number;
  readonly alternative: number;
}
export interface PinReply {
  readonly edits: readonly { readonly start: Place; readonly end: Place; readonly text: string }[];
}

/**
 * Server to client: the text of a player file. `file` is its path as the passage `uri` writes it, from the passage's folder down. Only
 * for clients that have said `players`; such a client says when the file has changed.
 */
export const READ_PLAYER_REQUEST = 'passagework/readPlayer';
export interface PlayerParams {
  readonly uri: string;
  readonly file: string;
}
/** A file that is longer than a life of attempts is no player file, bytes. */
export const LONGEST_PLAYER = 4 * 1024 * 1024;
/** `missing` says why there is none, to be read after a colon: «there is no such file». */
export type ReadPlayerReply = { readonly text: string } | { readonly missing: string };

/** Client to server: a player file that was read for a passage has changed, on disk or in its editor, or is gone, or has come. */
export const PLAYER_CHANGED_NOTIFICATION = 'passagework/playerChanged';

/**
 * Client to server: what would be tried at a place: at a note of a passage, as fingered, or on a line of a player file (then
 * `file` is absent). Null where there is nothing, or no player file is named.
 */
export const ATTEMPTS_REQUEST = 'passagework/attempts';
export interface AttemptsParams {
  readonly uri: string;
  readonly position: Place;
}
export type AttemptsReply = { readonly file?: string; readonly attempts: readonly string[] } | null;

/** Client to server: the edit of a player's text that does something to it, whether or not the file is open. Null where it can't be done. */
export const EDIT_PLAYER_REQUEST = 'passagework/editPlayer';
export interface EditPlayerParams {
  readonly text: string;
  readonly change:
    | { readonly kind: 'attempt'; readonly attempt: string; readonly clean: boolean }
    /** Sets a line such as `hand`, in place of the one there is. */
    | { readonly kind: 'value'; readonly key: string; readonly value: string }
    /** Counts a recording once, told by its fingerprint, or takes it back. */
    | {
        readonly kind: 'recording';
        readonly fingerprint: string;
        readonly counts: readonly HeardCount[];
        readonly back: boolean;
      };
}
export type EditPlayerReply = { readonly start: Place; readonly end: Place; readonly text: string } | null;

/** Client to server: what measuring a hand needs to know of a player, from the text of the player's file. */
export const MEASURE_REQUEST = 'passagework/measure';
export interface MeasureParams {
  readonly text: string;
}
export interface MeasureReply {
  /** As the player would say it: `violin 3/4`. */
  readonly instrument: string;
  /** Sounding length of its open strings, mm. */
  readonly length: number;
  /** The pairs of fingers that have a reach on it: `1-2`, `T-1`. */
  readonly pairs: readonly string[];
  /** The line there is now, empty where there is none; and the reaches that it gives, mm by pair of fingers. */
  readonly hand: string;
  readonly reaches: Readonly<Record<string, number>>;
  /** What a reach must lie between, mm. */
  readonly least: number;
  readonly most: number;
  /** Pairs of which the first lies inside the second, so that it can't open further. */
  readonly nested: readonly (readonly [inner: string, outer: string])[];
}

/** An attempt to count: in the player file that the passage `uri` names as `file`, or, without that, in the player file `uri`. */
export interface LogParams {
  readonly uri: string;
  readonly file?: string;
  /** As a player file writes it: `III 1/5`, `II fourth`, `I stopped`. */
  readonly attempt: string;
  readonly clean: boolean;
}

/**
 * Commands of the client that the server may use in links, lenses and actions, with their arguments.
 * `pin` takes `[PinParams]`, `preview` takes `[uri]`, `reveal` takes `[uri, start: Place, end: Place]`, `logAttempt` takes
 * `[LogParams]`.
 */
export const COMMANDS = {
  pin: 'passagework.pin',
  preview: 'passagework.openPreview',
  reveal: 'passagework.reveal',
  logAttempt: 'passagework.logAttempt',
} as const;

/** What the client tells the server when it starts it (`InitializeParams.initializationOptions`). */
export interface ClientOptions {
  /** True where `COMMANDS` are registered, so links may use them; without it the same is told in words and actions. */
  readonly commands?: boolean;
  /** True where `READ_PLAYER_REQUEST` is answered; without it no player file can be read. */
  readonly players?: boolean;
  /** Address of the folder that holds the rules' pages, `<code>.md` each, so that a problem's code can link to its page. */
  readonly rulePages?: string;
  /** Our messages in the reader's language (`server/l10n/translate.ts`); without it they are English. */
  readonly words?: Readonly<Record<string, string>>;
}

/**
 * Formats that a passage can be written in. They are made by a program of their own, which the client starts when one is wanted
 * (`server/lsp/conversion.ts`): reading scores and engraving would triple what every editing session loads.
 */
export type ExportFormat = 'musicxml' | 'midi' | 'wav' | 'html' | 'pdf';

/** Client to converter: a passage, or for `html` and `pdf` a sheet with all passages of the file, in another format. No PDF from a web worker. */
export const EXPORT_REQUEST = 'passagework/export';
export interface ExportParams {
  /** Of the passage file; player files that it names are asked for by it (`READ_PLAYER_REQUEST`). */
  readonly uri: string;
  readonly text: string;
  readonly format: ExportFormat;
  /** Zero-based line in the passage meant; a sheet has all of them. */
  readonly line: number;
  readonly paper: 'A4' | 'Letter';
  /** Which fingerings a sheet prints: where the hand does something new, or on every note. */
  readonly marking: 'changes' | 'all';
  /** What the file does not say itself, as in `Settings`. */
  readonly instrument: string;
  readonly hand: string;
  /** Text of the project file that holds for the passage. */
  readonly project?: string;
}
/** `problem` says what is wrong, why, and what to do. */
export type ExportReply = { readonly base64: string; readonly title: string } | { readonly problem: string };

/** Client to converter: one part of a score (MusicXML, MIDI or ABC, told apart by their first bytes) as passage text. */
export const IMPORT_REQUEST = 'passagework/import';
export interface ImportParams {
  readonly base64: string;
  /** The part to read, counted from 1; without it, the first for a string instrument. */
  readonly part?: string;
  /** Number of the tune, of a file of several; without it, the first. */
  readonly tune?: string;
  /** Of voices that share a staff, which; without it all, as double stops. */
  readonly divisi?: 'upper' | 'lower' | 'both';
}
/** `parts` and `tunes` are all there are; in `divided` bars several voices of the part sound; `lost` tells kind by kind what a passage can't say as the score does, `places` bar by bar. */
export type ImportReply =
  | {
      readonly text: string;
      readonly part: string;
      readonly parts: readonly { readonly id: string; readonly name: string }[];
      readonly tunes: readonly { readonly number: string; readonly title: string }[];
      readonly divided: number;
      readonly lost: readonly string[];
      readonly places: readonly string[];
    }
  | { readonly problem: string };

/** Client to converter: practice material from one passage, as passage text. */
export const EXERCISES_REQUEST = 'passagework/exercises';
export interface ExercisesParams {
  /** As in `ExportParams`. */
  readonly uri: string;
  readonly text: string;
  /** The document's name, for the heading; absent for one that was never saved. */
  readonly file?: string;
  /** Zero-based line in the passage meant. */
  readonly line: number;
  /** The kinds wanted, by name; absent for all that the passage has material for. */
  readonly kinds?: readonly string[];
  /** As in `Settings`. */
  readonly instrument: string;
  readonly hand: string;
  readonly safeChance: number;
  readonly project?: string;
}
/** `kinds` are those that were made, in their order. */
export type ExercisesReply =
  | {
      readonly text: string;
      readonly kinds: readonly { readonly name: string; readonly label: string; readonly meaning: string }[];
    }
  | { readonly problem: string };

/** Client to converter: what became of the notes of a passage in a recording, which it asks for block by block. */
export const LISTEN_REQUEST = 'passagework/listen';
export interface ListenParams {
  /** As in `ExportParams`. */
  readonly uri: string;
  readonly text: string;
  /** Zero-based line in the passage meant. */
  readonly line: number;
  /** As in `Settings`. */
  readonly instrument: string;
  readonly hand: string;
  readonly project?: string;
}
/** `problem` says as well that it is a recording of something else, or of silence. */
export type ListenReply =
  | {
      /** Index into the scene's passages. */
      readonly passage: number;
      readonly heard: Heard;
      readonly fingerprint: string;
      /** What it would add to a player file. */
      readonly counts: readonly HeardCount[];
      /** The player file, as the passage names it. */
      readonly player?: string;
    }
  | { readonly problem: string };

/** Converter to client: the next block of the recording being listened to. Answers its bytes, none at its end. */
export const READ_RECORDING_REQUEST = 'passagework/readRecording';
export interface ReadRecordingReply {
  readonly base64: string;
}
