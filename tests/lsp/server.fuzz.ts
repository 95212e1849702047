import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { CancellationTokenSource } from 'vscode-jsonrpc/node';
import type { Range } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { pieces } from '../fuzz/pieces';
import { type LanguageClient, PULLING, startClient } from '../support/language-client';
import { reading } from '../support/reading';
import { runs } from '../support/runs';

const URIS = ['file:///mole/a.passage', 'untitled:b', 'vscode-vfs://harbour/c.passage'];
const METHODS = [
  'textDocument/hover',
  'textDocument/codeAction',
  'textDocument/completion',
  'textDocument/signatureHelp',
  'textDocument/inlayHint',
  'textDocument/codeLens',
  'textDocument/semanticTokens/full',
  'textDocument/selectionRange',
  'textDocument/documentHighlight',
  'textDocument/formatting',
  'textDocument/rename',
  'textDocument/diagnostic',
  'passagework/scene',
  'passagework/alternatives',
  'passagework/pin',
];

const text = pieces(25);
const place = fc.record({ line: fc.nat(12), character: fc.nat(40) });
const uri = fc.constantFrom(...URIS);

const step = fc.oneof(
  fc.record({ kind: fc.constant('open' as const), uri, text }),
  fc.record({ kind: fc.constant('change' as const), uri, start: place, end: place, text }),
  fc.record({ kind: fc.constant('close' as const), uri }),
  fc.record({
    kind: fc.constant('ask' as const),
    uri,
    method: fc.constantFrom(...METHODS),
    start: place,
    end: place,
    cancel: fc.boolean(),
  }),
  fc.record({
    kind: fc.constant('nonsense' as const),
    method: fc.constantFrom(...METHODS, 'textDocument/didChange'),
    params: fc.jsonValue(),
  }),
);

let client: LanguageClient;
beforeAll(async () => {
  client = await startClient({ capabilities: PULLING });
});
afterAll(async () => {
  await client.stop();
});

/** What the client believes to be open. */
const open = new Map<string, TextDocument>();
let version = 0;

it('survives any order of messages, and knows every open document as it is in the end', { timeout: 280_000 }, async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { maxLength: 30 }), async (steps) => {
      const asked: Promise<unknown>[] = [];
      for (const one of steps) asked.push(...(await play(one)));
      await Promise.all(asked);
      for (const [at, document] of open) {
        await client.solved(at, document.version);
        const found = await client.pull(at);
        const wanted = reading(document.getText()).problems.map(({ code, span }) => [code, document.positionAt(span.start)]);
        expect(found.map(({ code, range }) => [code, range.start])).toEqual(wanted);
      }
      for (const at of [...open.keys()]) await play({ kind: 'close', uri: at });
      expect(client.process.exitCode).toBeNull();
    }),
    runs(300, 20240607),
  );
  expect(client.log.filter((line) => line.startsWith('Working out'))).toEqual([]);
});

type Step = typeof step extends fc.Arbitrary<infer S> ? S : never;

/** Sends one message; gives back the answers that are still to come. */
async function play(one: Step): Promise<Promise<unknown>[]> {
  switch (one.kind) {
    case 'open':
      if (open.has(one.uri)) return [];
      open.set(one.uri, TextDocument.create(one.uri, 'passage', ++version, one.text));
      await client.open(one.uri, one.text, version);
      return [];
    case 'change': {
      const document = open.get(one.uri);
      const change = { range: { start: one.start, end: one.end }, text: one.text };
      await client.change(one.uri, ++version, change);
      if (document) open.set(one.uri, replaced(document, change, version));
      return [];
    }
    case 'close':
      open.delete(one.uri);
      await client.close(one.uri);
      return [];
    case 'nonsense':
      if (one.method === 'textDocument/didChange') {
        await client.connection.sendNotification(one.method, {
          textDocument: { uri: 'file:///nowhere' },
          contentChanges: one.params,
        });
        return [];
      }
      return [answered(client.request(one.method, one.params))];
    case 'ask': {
      const params = {
        textDocument: { uri: one.uri },
        uri: one.uri,
        position: one.start,
        positions: [one.start],
        range: { start: one.start, end: one.end },
        context: { diagnostics: [] },
        newName: 'swell',
        version,
        passage: 0,
        event: one.start.character % 5,
        alternative: one.start.line % 5,
        options: { tabSize: 2, insertSpaces: true },
      };
      const source = new CancellationTokenSource();
      const answer = client.connection.sendRequest(one.method, params, source.token);
      if (one.cancel) source.cancel();
      return [answered(answer)];
    }
  }
}

/** Whatever the answer is: what counts is that one comes. */
function answered(answer: Promise<unknown>): Promise<unknown> {
  return answer.catch(() => undefined);
}

/** The document after a change, made by offsets: the library goes wrong where a range lies outside of the text. */
function replaced(document: TextDocument, { range, text: put }: { range: Range; text: string }, next: number): TextDocument {
  const [from, to] = [document.offsetAt(range.start), document.offsetAt(range.end)].sort((a, b) => a - b) as [number, number];
  const before = document.getText();
  return TextDocument.create(document.uri, 'passage', next, before.slice(0, from) + put + before.slice(to));
}
