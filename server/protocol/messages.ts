/**
 * What client and server say to each other beyond the language server protocol. Types and names only:
 * both sides import this file, so it may import nothing but types.
 */
import type { Scene, SceneAlternative } from './scene';

/** Client to server: the scene of one document, as solved. Answers null while the document is unknown. */
export const SCENE_REQUEST = 'passagework/scene';
export interface SceneParams {
  readonly uri: string;
}
export type SceneReply = Scene | null;

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

/** Zero-based, UTF-16, as the protocol counts. */
export interface Place {
  readonly line: number;
  readonly character: number;
}

/**
 * Commands of the client that the server may use in links, lenses and actions, with their arguments.
 * `pin` takes `[PinParams]`, `preview` takes `[uri]`, `reveal` takes `[uri, start: Place, end: Place]`.
 */
export const COMMANDS = {
  pin: 'passagework.pin',
  preview: 'passagework.openPreview',
  reveal: 'passagework.reveal',
} as const;

/** What the client tells the server when it starts it (`InitializeParams.initializationOptions`). */
export interface ClientOptions {
  /** True where `COMMANDS` are registered, so links may use them; without it the same is told in words and actions. */
  readonly commands?: boolean;
  /** Address of the folder that holds the rules' pages, `<code>.md` each, so that a problem's code can link to its page. */
  readonly rulePages?: string;
}

/**
 * Formats that a passage can be written in. They are made by a program of their own, which the client starts when one is wanted
 * (`server/lsp/conversion.ts`): reading scores and engraving would triple what every editing session loads.
 */
export type ExportFormat = 'musicxml' | 'midi' | 'wav' | 'html';

/** Client to converter: a passage, or for `html` a sheet with all passages of the file, in another format. */
export const EXPORT_REQUEST = 'passagework/export';
export interface ExportParams {
  readonly text: string;
  readonly format: ExportFormat;
  /** Zero-based line in the passage meant; a sheet has all of them. */
  readonly line: number;
  readonly paper: 'A4' | 'Letter';
  /** What the file does not say itself, as in `Settings`. */
  readonly instrument: string;
  readonly hand: string;
}
/** `problem` says what is wrong, why, and what to do. */
export type ExportReply = { readonly base64: string; readonly title: string } | { readonly problem: string };

/** Client to converter: one part of a MusicXML score (.musicxml or .mxl) as passage text. */
export const IMPORT_REQUEST = 'passagework/import';
export interface ImportParams {
  readonly base64: string;
  /** Id of the part to read; without it, the first for a string instrument. */
  readonly part?: string;
}
/** `parts` are all there are; `lost` tells line by line what a passage can't say as the score does. */
export type ImportReply =
  | {
      readonly text: string;
      readonly part: string;
      readonly parts: readonly { readonly id: string; readonly name: string }[];
      readonly lost: readonly string[];
    }
  | { readonly problem: string };
