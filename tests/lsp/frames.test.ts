import { PassThrough } from 'node:stream';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { watchFrames } from '../../server/lsp/node-frames';
import { type LanguageClient, startClient } from '../support/language-client';

/** What is said of bytes that come in pieces; undefined where nothing is. */
function told(pieces: readonly Buffer[]): string | undefined {
  const stream = new PassThrough();
  let why: string | undefined;
  watchFrames(stream, (said) => {
    why = said;
  });
  for (const piece of pieces) stream.emit('data', piece);
  return why;
}

const frame = (text: string, more = '') => Buffer.from(`${more}Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`);

it('has nothing against whole messages, however they are cut up', () => {
  const message = fc.string({ unit: 'grapheme', maxLength: 40 });
  const more = fc.constantFrom('', 'Content-Type: application/vscode-jsonrpc; charset=utf-8\r\n');
  fc.assert(
    fc.property(fc.array(fc.tuple(message, more), { maxLength: 5 }), fc.integer({ min: 1, max: 30 }), (messages, size) => {
      const all = Buffer.concat(messages.map(([text, head]) => frame(text, head)));
      const pieces = Array.from({ length: Math.ceil(all.length / size) }, (_, i) => all.subarray(i * size, (i + 1) * size));
      expect(told(pieces)).toBeUndefined();
      expect(told([...pieces, Buffer.from('Content-Length: -1\r\n\r\n')])).toBe('a head names no length');
    }),
    { numRuns: 200, seed: 18 },
  );
});

it.each([
  ['no length', 'Content-Type: x\r\n\r\n{}', /names no length/],
  ['a length below nothing', 'Content-Length: -5\r\n\r\n{}', /names no length/],
  ['a length that is no number', 'Content-Length: many\r\n\r\n{}', /names no length/],
  ['a huge length', 'Content-Length: 99999999999\r\n\r\n{}', /announces 99999999999 bytes/],
  ['no end of the head', 'x'.repeat(5000), /does not end/],
])('a frame with %s ends the server, which says why', (_, text, reason) => {
  expect(told([Buffer.from(text)])).toMatch(reason);
});

/** The server as it ships, with a text open, and what it says of it. */
async function opened(): Promise<{ readonly client: LanguageClient; readonly codes: readonly unknown[] }> {
  const client = await startClient();
  await client.open('file:///mole.passage', '1/4 D5 H5\n');
  const codes = (await client.problems('file:///mole.passage', 1)).map(({ code }) => code);
  return { client, codes };
}

it('the server as it ships ends then, with its input still open, so that a client starts it again and hands it the texts', async () => {
  const { client, codes } = await opened();
  let said = '';
  client.process.stderr.on('data', (chunk) => {
    said += chunk;
  });
  // What a client like VS Code’s goes by: the end of the connection (`Restart.closed`), and the program’s.
  const closed = new Promise<void>((end) => client.connection.onClose(end));
  const exit = new Promise((end) => client.process.once('exit', end));
  client.process.stdin.write('Content-Length: 99999999999\r\n\r\n{}');
  await closed;
  expect(await exit).toBe(1);
  expect(said).toMatch(/not a message from an editor: a head announces 99999999999 bytes\. The server ends/);
  const again = await opened();
  expect(codes).toEqual(['pitch-letter']);
  expect(again.codes).toEqual(codes);
  expect(await again.client.stop()).toBe(0);
});
