import { expect, it } from 'vitest';
import type { Message } from 'vscode-languageserver';
import { createDoor } from '../../server/lsp/door';

const HELLO = { processId: null, rootUri: null, capabilities: {} };

/** A door, what came through it and what the client was told. */
function door() {
  const through: unknown[] = [];
  const told: Message[] = [];
  const never = () => ({ dispose() {} });
  const writer = {
    write: async (message: Message) => void told.push(message),
    end() {},
    dispose() {},
    onError: never,
    onClose: never,
  };
  const { handleMessage } = createDoor(writer);
  const send = (message: object) =>
    handleMessage(
      { jsonrpc: '2.0', ...message } as Message,
      (passed) => void through.push((passed as { method?: string }).method),
    );
  return { through, told, send };
}

it('lets nothing but `initialize` in before it, nothing but `exit` after `shutdown`, and neither of these twice', () => {
  const { through, told, send } = door();
  send({ method: 'textDocument/didClose', params: { textDocument: { uri: 'a' } } });
  send({ id: 1, method: 'shutdown' });
  send({ method: '$/setTrace', params: { value: 'off' } });
  send({ id: 2, method: 'initialize', params: HELLO });
  send({ id: 3, method: 'initialize', params: HELLO });
  send({ id: 4, method: 'shutdown' });
  send({ id: 5, method: 'shutdown' });
  send({ id: 6, method: 'textDocument/hover', params: {} });
  send({ id: 7, result: null });
  send({ method: 'exit' });
  expect(through).toEqual(['$/setTrace', 'initialize', 'shutdown', undefined, 'exit']);
  // Codes of JSON-RPC 2.0 and the Language Server Protocol 3.17 (“Error Codes”): ServerNotInitialized, InvalidRequest.
  expect(told).toMatchObject([
    { method: 'window/logMessage', params: { type: 1, message: 'The client has not sent “initialize” yet.' } },
    { id: 1, error: { code: -32002 } },
    { id: 3, error: { code: -32600, message: 'The server is initialized already.' } },
    { id: 5, error: { code: -32600, message: 'The server has been shut down.' } },
    { id: 6, error: { code: -32600 } },
  ]);
});

it('refuses what does not bring what it must, before the library reads it', () => {
  const { through, told, send } = door();
  send({ id: 1, method: 'initialize' });
  send({ id: 2, method: 'initialize', params: { processId: null } });
  send({ id: 3, method: 'initialize', params: HELLO });
  send({ method: 'textDocument/didOpen', params: {} });
  expect(through).toEqual(['initialize']);
  expect(told).toMatchObject([
    { id: 1, error: { code: -32602, message: 'initialize: what it brings must be an object' } },
    { id: 2, error: { code: -32602, message: 'initialize: capabilities must be an object' } },
    { method: 'window/logMessage', params: { message: 'textDocument/didOpen: textDocument must be an object' } },
  ]);
});
