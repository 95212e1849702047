import { afterEach, describe, expect, it } from 'vitest';
import { type LanguageClient, PULLING, startClient, startServer } from '../support/language-client';

const URI = 'untitled:harbour.passage';
const HERE = { textDocument: { uri: URI }, position: { line: 0, character: 5 } };

let client: LanguageClient | undefined;
afterEach(async () => {
  await client?.stop();
  client = undefined;
});

async function opened(): Promise<LanguageClient> {
  const made = await startClient({ capabilities: PULLING });
  client = made;
  await made.open(URI, '1/4 D6o');
  return made;
}

describe('what goes wrong', () => {
  it('survives faulty messages of every kind and goes on answering', async () => {
    const made = await opened();
    const send = (method: string, params: unknown) =>
      made.request(method, params).then(
        () => 'answered',
        () => 'refused',
      );
    expect(await send('textDocument/hover', {})).toBe('refused');
    expect(await send('textDocument/hover', { textDocument: { uri: 5 } })).toBe('refused');
    expect(await send('textDocument/hover', { textDocument: { uri: URI } })).toBe('refused');
    expect(await send('textDocument/codeAction', { textDocument: { uri: URI }, range: null, context: null })).toBe('refused');
    expect(await send('textDocument/rename', { ...HERE, newName: 42 })).toBe('refused');
    expect(await send('passagework/pin', { uri: URI, version: 1 })).toBe('refused');
    expect(await send('passagework/nonsense', {})).toBe('refused');
    await made.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: 'file:///never-opened', version: 2 },
      contentChanges: [{ text: 'x' }],
    });
    await made.connection.sendNotification('textDocument/didChange', { textDocument: { uri: URI, version: 2 } });
    await made.connection.sendNotification('textDocument/didOpen', {});
    await made.connection.sendNotification('passagework/nonsense', {});
    const far = { textDocument: { uri: URI }, position: { line: 999, character: 999 } };
    expect(await send('textDocument/hover', far)).toBe('answered');
    made.process.stdin.write('Content-Length: 13\r\n\r\n{"jsonrpc": }');
    expect(await made.request('textDocument/hover', HERE)).toMatchObject({ contents: { kind: 'markdown' } });
    expect(made.process.exitCode).toBeNull();
  });

  it('answers a cancelled request as cancelled', async () => {
    const made = await opened();
    const id = 4711;
    const answer = new Promise<{ error?: { code: number } }>((done) => {
      made.process.stdout.on('data', (chunk: Buffer) => {
        const found = /\{[^{}]*"id":4711,"error":(\{.*\})\}/.exec(chunk.toString());
        if (found) done({ error: JSON.parse(found[1] ?? '{}') });
      });
    });
    const frame = (message: object) => {
      const body = JSON.stringify({ jsonrpc: '2.0', ...message });
      return `Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`;
    };
    await made.change(URI, 2, { text: '1/4 D6o E6o' });
    made.process.stdin.write(
      frame({ id, method: 'textDocument/hover', params: HERE }) + frame({ method: '$/cancelRequest', params: { id } }),
    );
    expect((await answer).error?.code).toBe(-32800);
  });

  it('refuses questions before it is initialized, and ends as it should', async () => {
    const child = startServer();
    let heard = '';
    child.stdout.on('data', (chunk: Buffer) => {
      heard += chunk.toString();
    });
    const body = JSON.stringify({ jsonrpc: '2.0', id: 1, method: 'textDocument/hover', params: { textDocument: { uri: URI } } });
    child.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
    await expect.poll(() => heard).toContain('-32002');
    const code = new Promise((done) => child.once('exit', done));
    child.stdin.end();
    expect(await code).not.toBeNull();
  });

  it('ends with 0 after shutdown and exit', async () => {
    const short = await startClient();
    expect(await short.stop()).toBe(0);
  });
});
