import type { ClientCapabilities, RequestType } from 'vscode-languageserver';
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
  // biome-ignore lint/suspicious/noExplicitAny: what goes in and out is checked where the row is made, by the functions below.
  readonly type: RequestType<any, any, any>;
  /** What an answer waits for (see Workspace). */
  readonly needs: 'draft' | 'soonest' | 'solved' | 'prepared';
  /** Names no place in the text, so an edit in between makes it wait for the newer version rather than fail. */
  readonly patient?: boolean;
  // biome-ignore lint/suspicious/noExplicitAny: as above.
  answer(params: any, known: any, places: Places, client: Client, pace: Pace): unknown;
}

type Answer<P, R, Known> = (
  params: P,
  known: Known,
  places: Places,
  client: Client,
  /** For long answers: gives way to other questions, and stops once nobody waits any more. */
  pace: Pace,
) => R | Promise<R>;

/** A question that the text alone answers. */
export function fromText<P, R, E>(type: RequestType<P, R, E>, answer: Answer<P, R, Draft>): DocumentRequest {
  return { type, needs: 'draft', answer };
}

/** A question about how things are played. */
export function fromFingering<P, R, E>(type: RequestType<P, R, E>, answer: Answer<P, R, Snapshot>): DocumentRequest {
  return { type, needs: 'solved', answer };
}

/** A question about how else things could be played: it waits for what all other ways are read from. */
export function fromOtherWays<P, R, E>(type: RequestType<P, R, E>, answer: Answer<P, R, Snapshot>): DocumentRequest {
  return { type, needs: 'prepared', answer };
}

/** A question that is answered at once from what is there. */
export function atOnce<P, R, E>(type: RequestType<P, R, E>, answer: Answer<P, R, Draft | Snapshot>): DocumentRequest {
  return { type, needs: 'soonest', answer };
}
