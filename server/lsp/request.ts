import type { MessageSignature } from 'vscode-jsonrpc';
import type { ClientCapabilities, RequestType } from 'vscode-languageserver-protocol';
import type { ClientOptions } from '../protocol/messages';
import type { Pace } from '../workspace/pace';
import type { Draft, Snapshot } from '../workspace/snapshot';
import type { Places } from './places';
import type { SentScenes } from './sent-scenes';
import type { SentTokens } from './sent-tokens';

/** Who is asking. */
export interface Client {
  readonly abilities: ClientCapabilities;
  readonly options: ClientOptions;
  /** What has been sent to it. */
  readonly scenes: SentScenes;
  readonly tokens: SentTokens;
}

/** One kind of question about an open document, and how it is answered. */
export interface DocumentRequest {
  readonly method: string;
  /** What an answer waits for (see Workspace). */
  readonly needs: 'draft' | 'soonest' | 'solved' | 'prepared';
  /** Names no place in the text, so an edit in between makes it wait for the newer version rather than fail. */
  readonly patient?: boolean;
  // biome-ignore lint/suspicious/noExplicitAny: what goes in is checked where the row is made, by `fromText` and `fromFingering`.
  answer(params: any, known: any, places: Places, client: Client, pace: Pace): unknown;
}

/** A method with the types that its parameters and result have, as the protocol's library declares them. */
export interface Kind {
  readonly method: string;
  readonly type: MessageSignature;
}

// biome-ignore lint/suspicious/noExplicitAny: only the parameters and the result are wanted of the type.
type ParamsOf<K extends Kind> = K['type'] extends RequestType<infer P, any, any> ? P : never;
// biome-ignore lint/suspicious/noExplicitAny: as above.
type ResultOf<K extends Kind> = K['type'] extends RequestType<any, infer R, any> ? R : never;
type Answer<K extends Kind, Known> = (
  params: ParamsOf<K>,
  known: Known,
  places: Places,
  client: Client,
  /** For long answers: gives way to other questions, and stops once nobody waits any more. */
  pace: Pace,
) => ResultOf<K> | Promise<ResultOf<K>>;

/** A question that the text alone answers. */
export function fromText<K extends Kind>(method: K['method'], answer: Answer<K, Draft>): DocumentRequest {
  return { method, needs: 'draft', answer };
}

/** A question about how things are played. */
export function fromFingering<K extends Kind>(method: K['method'], answer: Answer<K, Snapshot>): DocumentRequest {
  return { method, needs: 'solved', answer };
}

/** A question about how else things could be played: it waits for what all other ways are read from. */
export function fromOtherWays<K extends Kind>(method: K['method'], answer: Answer<K, Snapshot>): DocumentRequest {
  return { method, needs: 'prepared', answer };
}

/** A question that is answered at once from what is there. */
export function atOnce<K extends Kind>(method: K['method'], answer: Answer<K, Draft | Snapshot>): DocumentRequest {
  return { method, needs: 'soonest', answer };
}
