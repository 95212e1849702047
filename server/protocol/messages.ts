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
