import type { MessageSignature } from 'vscode-jsonrpc';
import type { ClientCapabilities, RequestType } from 'vscode-languageserver-protocol';
import type { ClientOptions } from '../protocol/messages';
import type { Draft, Snapshot } from '../workspace/snapshot';
import type { Places } from './places';
import type { SentScenes } from './sent-scenes';

/** Who is asking. */
export interface Client {
  readonly abilities: ClientCapabilities;
  readonly options: ClientOptions;
  /** What has been sent to it. */
  readonly scenes: SentScenes;
}

/** One kind of question about an open document, and how it is answered. */
export interface DocumentRequest {
  readonly method: string;
  /** `draft` is answered from the text alone, `snapshot` waits for the fingering. */
  readonly needs: 'draft' | 'snapshot';
  /** Names no place in the text, so an edit in between makes it wait for the newer version rather than fail. */
  readonly patient?: boolean;
  // biome-ignore lint/suspicious/noExplicitAny: what goes in is checked where the row is made, by `fromText` and `fromFingering`.
  answer(params: any, known: any, places: Places, client: Client): unknown;
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
type Answer<K extends Kind, Known> = (params: ParamsOf<K>, known: Known, places: Places, client: Client) => ResultOf<K>;

/** A question that the text alone answers. */
export function fromText<K extends Kind>(method: K['method'], answer: Answer<K, Draft>): DocumentRequest {
  return { method, needs: 'draft', answer };
}

/** A question about how things are played. */
export function fromFingering<K extends Kind>(method: K['method'], answer: Answer<K, Snapshot>): DocumentRequest {
  return { method, needs: 'snapshot', answer };
}
