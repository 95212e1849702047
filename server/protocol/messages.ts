/**
 * What client and server say to each other beyond the language server protocol. Types and names only:
 * both sides import this file, so it may import nothing but types.
 */
import type { Scene } from './scene';

/** Client to server: the scene of one document, as solved. Answers null while the document is unknown. */
export const SCENE_REQUEST = 'passagework/scene';
export interface SceneParams {
  readonly uri: string;
}
export type SceneReply = Scene | null;

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

/** What a server can convert, told in `InitializeResult.capabilities.experimental`; the client offers nothing else. */
export interface Offers {
  readonly exports: readonly ExportFormat[];
  readonly imports: boolean;
}
export type ExportFormat = 'musicxml' | 'midi' | 'wav' | 'html' | 'pdf';

/** Client to server: one document in another format. */
export const EXPORT_REQUEST = 'passagework/export';
export interface ExportParams {
  readonly uri: string;
  readonly format: ExportFormat;
}
/** `problem` says what is wrong, why, and what to do; `lost` names what the format can't carry. */
export type ExportReply = { readonly base64: string; readonly lost: readonly string[] } | { readonly problem: string };

/** Client to server: passage text from the bytes of a `.musicxml` or `.mxl` file. Asked again with `part` where the reply has `parts`. */
export const IMPORT_REQUEST = 'passagework/import';
export interface ImportParams {
  readonly name: string;
  readonly base64: string;
  readonly part?: string;
}
export type ImportReply =
  | { readonly text: string; readonly lost: readonly string[] }
  | { readonly parts: readonly { readonly id: string; readonly name: string }[] }
  | { readonly problem: string };
