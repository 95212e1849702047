import { once } from 'node:events';
import { setTimeout } from 'node:timers/promises';
import { afterEach, describe, expect, it } from 'vitest';
import type { Hover, TextEdit } from 'vscode-languageserver';
import { longFile } from '../bench/long-file';
import { type LanguageClient, PULLING, startClient } from '../support/language-client';
import { reading } from '../support/reading';
import { Typist } from './typing';

const URI = 'untitled:long.passage';

let client: LanguageClient | undefined;
afterEach(async () => {
  await client?.stop();
  client = undefined;
});

async function started(): Promise<LanguageClient> {
  client = await startClient({ capabilities: PULLING });
  return client;
}

describe('the built server', () => {
  it('reads a file of 50,000 lines, tells of a slip in its last line, and of its fix', { timeout: 900_000 }, async () => {
    const server = await started();
    const lines = longFile(50_000).split('\n');
    lines.splice(-1, 1, '1/8 D5 H5');
    await server.open(URI, lines.join('\n'), 1);
    const before = await server.pull(URI);
    expect(before.filter(({ code }) => code === 'pitch-letter').map(({ range }) => range.start)).toEqual([
      { line: lines.length - 1, character: 7 },
    ]);
    const end = { line: lines.length - 1, character: 7 };
    await server.change(URI, 2, { range: { start: end, end: { ...end, character: 8 } }, text: 'A' });
    const after = await server.pull(URI);
    expect(after.filter(({ code }) => code === 'pitch-letter')).toEqual([]);
    // A hover answers from what is there, and says so where the fingering is not there yet.
    const told = async () =>
      JSON.stringify((await server.request<Hover>('textDocument/hover', { textDocument: { uri: URI }, position: end })).contents);
    expect(await told()).toMatch(/A5|Still working out/);
    await expect.poll(told, { timeout: 600_000, interval: 500 }).toContain('A5');
  });

  it.each([
    ['one word', 'x'.repeat(10 * 2 ** 20)],
    ['notes', 'D5 E5 '.repeat((10 * 2 ** 20) / 6)],
    ['brackets', 'D5 [('.repeat(2 * 2 ** 20)],
    ['a comment', `// ${'sea '.repeat(2.5 * 2 ** 20)}`],
    ['a motif', `motif wave = ${'D5 E5 '.repeat((10 * 2 ** 20) / 6)}\nwave wave`],
  ])('answers for a line of 10 MB, %s, and for what is written instead of it', { timeout: 600_000 }, async (_, text) => {
    const server = await started();
    await server.open(URI, text, 1);
    const problems = await server.pull(URI);
    expect(problems.some(({ code }) => code === 'line-too-long')).toBe(!text.startsWith('//'));
    const at = { textDocument: { uri: URI }, position: { line: 0, character: 5_000_000 } };
    await server.request('textDocument/hover', at);
    await server.request('textDocument/completion', at);
    await server.request('textDocument/signatureHelp', at);
    const edits = await server.request<TextEdit[]>('textDocument/formatting', {
      ...at,
      options: { tabSize: 2, insertSpaces: true },
    });
    // What is not read to its end is not rewritten either.
    expect(edits.length).toBeLessThan(5_000);
    await server.change(URI, 2, { text: '1/4 D6o' });
    expect(await server.pull(URI)).toEqual([]);
  });

  it('killed between two keys and started again, knows the text as if nothing had happened', { timeout: 600_000 }, async () => {
    const typist = new Typist(3, 'passage: Mole head\n1/8 D5 F#5 A5 D6o |\n');
    let server = await started();
    let version = 1;
    await server.open(URI, typist.text, version);
    for (let life = 0; life < 5; life++) {
      for (let key = 0; key < 40; key++) await server.change(URI, ++version, { text: typist.change() });
      const dead = once(server.process, 'exit');
      server.process.kill('SIGKILL');
      await dead;
      server.connection.dispose();
      // What the editor's library does: a new server, and every open document as it is now.
      server = await started();
      await server.open(URI, typist.change(), ++version);
      // A server just started answers with what the text alone tells, and with the fingering once it has it.
      await server.pull(URI);
      await server.request('textDocument/hover', { textDocument: { uri: URI }, position: { line: 0, character: 0 } });
      await setTimeout(500);
      const told = (await server.pull(URI)).map(({ code, message }) => ({ code, message }));
      expect(told).toEqual(reading(typist.text).problems.map(({ code, message }) => ({ code, message })));
    }
  });
});
