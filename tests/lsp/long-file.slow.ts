import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CodeAction, Hover } from 'vscode-languageserver';
import { longFile } from '../bench/long-file';
import { type LanguageClient, PULLING, startClient } from '../support/language-client';

let client: LanguageClient;

beforeAll(async () => {
  client = await startClient({ capabilities: PULLING, options: { commands: true } });
});
afterAll(async () => void (await client.stop()));

describe('the built server and long files', () => {
  it('answers a hover from what is there, and tells all of it later', async () => {
    const uri = 'untitled:long.passage';
    await client.open(uri, longFile(300));
    const hovered = async () => {
      const { contents } = await client.request<Hover>('textDocument/hover', {
        textDocument: { uri },
        position: { line: 150, character: 5 },
      });
      return (contents as { value: string }).value;
    };
    expect(await hovered()).toBe('Still working out how to play this. Hover here again in a moment.');
    await client.solved(uri, 1);
    await expect.poll(hovered, { timeout: 20_000 }).toContain('Other ways:\n');
  });

  it('lists what can be done with all of a motif used thousands of times', async () => {
    const uri = 'untitled:waves.passage';
    const uses = Array.from({ length: 500 }, () => `${Array(8).fill('wave').join(' ')} |`);
    await client.open(uri, ['motif wave = 1/16 D5 E6o F#5 A9', ...uses].join('\n'));
    const found = await client.request<CodeAction[]>('textDocument/codeAction', {
      textDocument: { uri },
      range: { start: { line: 0, character: 0 }, end: { line: 501, character: 0 } },
      context: { diagnostics: [] },
    });
    expect(found.map(({ title }) => title)).toContain('Pin the selected notes as fingered');
  });
});
