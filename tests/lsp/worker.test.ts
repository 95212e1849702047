import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { afterEach, expect, it } from 'vitest';

const SERVER = fileURLToPath(new URL('../../dist/server/browser.js', import.meta.url));

/** What a web worker has and a worker thread of Node lacks: messages on the global scope. No `require`, no `process`. */
const SCOPE = `
  const { parentPort } = require('node:worker_threads');
  const scope = {
    postMessage: (message) => parentPort.postMessage(message),
    addEventListener: (type, listener) => type === 'message' && parentPort.on('message', (data) => listener({ data })),
    close: () => parentPort.close(),
  };
  parentPort.on('message', (data) => scope.onmessage?.({ data }));
  for (const name of ['performance', 'MessageChannel', 'TextEncoder', 'TextDecoder', 'setTimeout', 'clearTimeout', 'console'])
    scope[name] = globalThis[name];
  scope.globalThis = scope.self = scope;
  require('node:vm').runInNewContext(source, scope);
`;

let worker: Worker | undefined;
afterEach(async () => {
  await worker?.terminate();
  worker = undefined;
});

it('the server built for web workers answers without anything of Node', async () => {
  const source = readFileSync(SERVER, 'utf8');
  const started = new Worker(`const source = ${JSON.stringify(source)};${SCOPE}`, { eval: true });
  worker = started;
  const heard: { id?: number; method?: string; params?: unknown; result?: unknown }[] = [];
  started.on('message', (message) => heard.push(message));
  const send = (message: object) => started.postMessage({ jsonrpc: '2.0', ...message });
  send({ id: 1, method: 'initialize', params: { processId: null, rootUri: null, capabilities: {} } });
  await expect
    .poll(() => heard.find(({ id }) => id === 1)?.result, { timeout: 8000 })
    .toMatchObject({ serverInfo: { name: 'passagework' } });
  send({ method: 'initialized', params: {} });
  const uri = 'vscode-vfs://harbour/study.passage';
  send({ method: 'textDocument/didOpen', params: { textDocument: { uri, languageId: 'passage', version: 1, text: 'D6o H5' } } });
  send({ id: 2, method: 'textDocument/hover', params: { textDocument: { uri }, position: { line: 0, character: 1 } } });
  await expect
    .poll(() => heard.find(({ id }) => id === 2)?.result, { timeout: 8000 })
    .toMatchObject({ contents: { value: expect.stringContaining('D6 natural harmonic') } });
  expect(heard.find(({ method }) => method === 'textDocument/publishDiagnostics')?.params).toMatchObject({
    uri,
    diagnostics: [{ code: 'pitch-letter' }],
  });
});
