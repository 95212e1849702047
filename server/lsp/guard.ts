import {
  type CancellationToken,
  DocumentDiagnosticRequest,
  ErrorCodes,
  LSPErrorCodes,
  ResponseError,
} from 'vscode-languageserver';
import { Cancelled } from '../workspace/pace';

// biome-ignore lint/suspicious/noExplicitAny: what an error brings beside its words goes by the method.
type Refusal = ResponseError<any>;

/** Runs handlers so that none of them can end the server: a fault is logged and answered as an error, and the next message is handled as usual. */
export interface Guard {
  /** Answers a request; gives up as soon as the client does. */
  answer<R>(method: string, token: CancellationToken, work: () => R | Promise<R>): Promise<R | Refusal>;
  /** Takes in what a client tells. */
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
      try {
        Promise.resolve(work()).catch((error) => fault(method, error));
      } catch (error) {
        fault(method, error);
      }
    },
  };
}

function given(): Refusal {
  return new ResponseError(LSPErrorCodes.RequestCancelled, 'No longer wanted.');
}

function givenUp(token: CancellationToken): Promise<Refusal> {
  return new Promise((stop) => token.onCancellationRequested(() => stop(given())));
}

/** The text has moved on. A client that pulls problems is told to ask once more; for all else it knows that by itself. */
function overtaken(method: string): Refusal {
  return method === DocumentDiagnosticRequest.method
    ? new ResponseError(LSPErrorCodes.ServerCancelled, 'The text has changed.', { retriggerRequest: true })
    : new ResponseError(LSPErrorCodes.ContentModified, 'The text has changed.');
}
