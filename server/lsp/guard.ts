import { type CancellationToken, ErrorCodes, ResponseError } from 'vscode-jsonrpc';
import { Cancelled } from '../workspace/pace';
import { FAILURE } from './codes';

/** Runs handlers so that none of them can end the server: a fault is logged and answered as an error, and the next message is handled as usual. */
export interface Guard {
  /** Answers a request; gives up as soon as the client does. */
  answer<R>(method: string, token: CancellationToken, work: () => R | Promise<R>): Promise<R | ResponseError<unknown>>;
  /** Takes in a notification. */
  take(method: string, work: () => void | Promise<void>): void;
  fault(method: string, error: unknown): void;
}

/** `report` tells the client's log. */
export function createGuard(report: (message: string) => void): Guard {
  function fault(method: string, error: unknown): void {
    const story = error instanceof Error ? (error.stack ?? error.message) : String(error);
    report(`${method} failed; everything else goes on. Please report this: ${story}`);
  }
  return {
    fault,
    async answer(method, token, work) {
      try {
        if (token.isCancellationRequested) return given();
        return await Promise.race([work(), givenUp(token)]);
      } catch (error) {
        if (error instanceof ResponseError) return error;
        if (error instanceof Cancelled) return overtaken(method);
        fault(method, error);
        return new ResponseError(ErrorCodes.InternalError, `Passagework could not answer ${method}: ${String(error)}`);
      }
    },
    take(method, work) {
      // A message of the client's that breaks the protocol can only be told of: nobody waits for an answer.
      const told = (error: unknown) => (error instanceof ResponseError ? report(error.message) : fault(method, error));
      try {
        Promise.resolve(work()).catch(told);
      } catch (error) {
        told(error);
      }
    },
  };
}

function given(): ResponseError<unknown> {
  return new ResponseError(FAILURE.requestCancelled, 'No longer wanted.');
}

function givenUp(token: CancellationToken): Promise<ResponseError<unknown>> {
  return new Promise((stop) => token.onCancellationRequested(() => stop(given())));
}

/** The text has moved on. A client that pulls problems is told to ask once more; for all else it knows that by itself. */
function overtaken(method: string): ResponseError<unknown> {
  return method === 'textDocument/diagnostic'
    ? new ResponseError(FAILURE.serverCancelled, 'The text has changed.', { retriggerRequest: true })
    : new ResponseError(FAILURE.contentModified, 'The text has changed.');
}
