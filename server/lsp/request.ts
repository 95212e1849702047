import type { ClientCapabilities, RequestType } from 'vscode-languageserver';
import type { ClientOptions } from '../protocol/messages';
import type { Draft, Snapshot } from '../workspace/snapshot';
import type { Places } from './places';

/** Who is asking. */
export interface Client {
  readonly abilities: ClientCapabilities;
  readonly options: ClientOptions;
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

// biome-ignore lint/suspicious/noExplicitAny: no request of ours tells more of an error than its words.
type Method<P, R> = RequestType<P, R, any>;
type Answer<P, R, K> = (params: P, known: K, places: Places, client: Client) => R;

/** A question that the text alone answers. */
export function fromText<P, R>(type: Method<P, R>, answer: Answer<P, R, Draft>): DocumentRequest {
  return { method: type.method, needs: 'draft', answer };
}

/** A question about how things are played. */
export function fromFingering<P, R>(type: Method<P, R>, answer: Answer<P, R, Snapshot>): DocumentRequest {
  return { method: type.method, needs: 'snapshot', answer };
}
