import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import type { Hover } from 'vscode-languageserver';
import { startClient } from '../support/language-client';

const COMMAND = fileURLToPath(new URL('../../dist/command.cjs', import.meta.url));

it('the command serves other editors the same', async () => {
  const client = await startClient({ program: [COMMAND, 'serve', '--stdio'] });
  const uri = 'file:///harbour/study.passage';
  await client.open(uri, '1/4 D6o H5');
  expect((await client.problems(uri, 1)).map(({ code }) => code)).toEqual(['pitch-letter']);
  const hover = await client.request<Hover>('textDocument/hover', { textDocument: { uri }, position: { line: 0, character: 5 } });
  expect(hover.contents).toMatchObject({ value: expect.stringMatching(/^D6 natural harmonic/) });
  expect(await client.stop()).toBe(0);
});
