import {
  ErrorCodes,
  LogMessageNotification,
  type LogMessageParams,
  Message,
  type MessageStrategy,
  MessageType,
  type MessageWriter,
  type NotificationMessage,
  type RequestMessage,
  ResponseError,
  type ResponseMessage,
} from 'vscode-languageserver';
import { checkParams } from './params';

/**
 * Looks at every message before it reaches a handler, ours or the library's, which take what they are given as it should be: what it brings,
 * and the life of a server (Language Server Protocol 3.17), nothing before `initialize` and nothing but `exit` after `shutdown`.
 *
 * @param writer tells the client what is refused
 */
export function createDoor(writer: MessageWriter): MessageStrategy {
  let life: 'new' | 'running' | 'shut down' = 'new';

  function check(method: string, params: unknown): void {
    // What is for the connection itself, and may be ignored.
    if (method.startsWith('$/') || method === 'exit') return;
    if (life === 'shut down') throw new ResponseError(ErrorCodes.InvalidRequest, 'The server has been shut down.');
    if (method === 'initialize' && life === 'running')
      throw new ResponseError(ErrorCodes.InvalidRequest, 'The server is initialized already.');
    if (method !== 'initialize' && life === 'new')
      throw new ResponseError(ErrorCodes.ServerNotInitialized, 'The client has not sent “initialize” yet.');
    checkParams(method, params);
    if (method === 'initialize') life = 'running';
    if (method === 'shutdown') life = 'shut down';
  }

  return {
    handleMessage(message, next) {
      const asked = Message.isRequest(message);
      if (!asked && !Message.isNotification(message)) return next(message);
      try {
        check(message.method, message.params);
      } catch (error) {
        if (!(error instanceof ResponseError)) throw error;
        return writer.write(asked ? refusal(message, error) : log(error));
      }
      return next(message);
    },
  };
}

function refusal({ id }: RequestMessage, error: ResponseError): ResponseMessage {
  return { jsonrpc: '2.0', id, error: error.toJson() };
}

/** Nobody waits for an answer to a notification. */
function log({ message }: ResponseError): NotificationMessage {
  const params: LogMessageParams = { type: MessageType.Error, message };
  return { jsonrpc: '2.0', method: LogMessageNotification.method, params };
}
