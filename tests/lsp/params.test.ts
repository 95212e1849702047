import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ResponseError } from 'vscode-jsonrpc';
import { CHECKED_METHODS, checkParams } from '../../server/lsp/params';
import { REQUESTS } from '../../server/lsp/requests';
import { type LanguageClient, PULLING, startClient } from '../support/language-client';

const URI = 'untitled:harbour.passage';
const START = { line: 0, character: 0 };
const HERE = { textDocument: { uri: URI }, position: START };
const SPOT = { uri: URI, version: 1, passage: 0, event: 0 };

/** Questions as a client should ask them, and what is wrong with them once a member is spoilt. */
const WELL: Readonly<Record<string, object>> = {
  'textDocument/hover': HERE,
  'textDocument/codeAction': { textDocument: { uri: URI }, range: { start: START, end: START }, context: { diagnostics: [] } },
  'textDocument/inlayHint': { textDocument: { uri: URI }, range: { start: START, end: START } },
  'textDocument/selectionRange': { textDocument: { uri: URI }, positions: [START] },
  'textDocument/references': { ...HERE, context: { includeDeclaration: true } },
  'textDocument/rename': { ...HERE, newName: 'wave' },
  'passagework/scene': { uri: URI },
  'passagework/alternatives': SPOT,
  'passagework/pin': { ...SPOT, alternative: 0 },
  'passagework/attempts': { uri: URI, position: START },
  'passagework/measure': { text: '' },
  'passagework/editPlayer': { text: '', change: { kind: 'attempt', attempt: 'III 1/5', clean: true } },
};

const COUNTED = { kind: 'recording', fingerprint: 'ab', counts: [{ attempt: 'III 1/5', clean: 1, tried: 2 }], back: false };

const WRONG = [undefined, null, true, 'x', -1, 0.5, 1e300, [], {}, [null], { line: 'x' }];

/** Every value that differs from a good one in one member, with the member's name. */
function* spoilt(value: unknown, name = ''): Generator<readonly [name: string, value: unknown]> {
  for (const wrong of WRONG) yield [name, wrong];
  if (typeof value !== 'object' || value === null) return;
  for (const [key, member] of Object.entries(value))
    for (const [inside, wrong] of spoilt(member, name ? `${name}.${key}` : key))
      yield [inside, Array.isArray(value) ? Object.assign([...value], { [key]: wrong }) : { ...value, [key]: wrong }];
}

describe('parameters of the protocol', () => {
  it('are looked at for every question that the server answers', () => {
    for (const { type } of REQUESTS) expect(CHECKED_METHODS).toContain(type.method);
  });

  it.each([
    ['textDocument/hover', { textDocument: { uri: URI } }, 'textDocument/hover: position must be an object'],
    [
      'textDocument/hover',
      { ...HERE, position: { line: '3', character: 0 } },
      'textDocument/hover: position.line must be a whole number from 0 up',
    ],
    ['textDocument/rename', { ...HERE, newName: 42 }, 'textDocument/rename: newName must be a text'],
    [
      'textDocument/selectionRange',
      { textDocument: { uri: URI }, positions: [START, { line: 0 }] },
      'textDocument/selectionRange: positions[1].character must be a whole number from 0 up',
    ],
    ['passagework/pin', { uri: URI, version: 1 }, 'passagework/pin: passage must be a whole number from 0 up'],
    [
      'passagework/editPlayer',
      { text: '', change: { kind: 'value', key: 'hand' } },
      'passagework/editPlayer: change.value must be a text',
    ],
    [
      'passagework/editPlayer',
      { text: '', change: { ...COUNTED, counts: [{ attempt: 'III 1/5', clean: 1, tried: -2 }] } },
      'passagework/editPlayer: change.counts[0].tried must be a whole number from 0 up',
    ],
    ['passagework/listen', { uri: URI, text: '', line: 0 }, 'passagework/listen: instrument must be a text'],
    ['textDocument/didOpen', undefined, 'textDocument/didOpen: what it brings must be an object'],
  ])('%s says which one is wrong', (method, params, message) => {
    const check = () => checkParams(method, params);
    expect(check).toThrow(ResponseError);
    expect(check).toThrow(message);
  });

  it.each(Object.entries(WELL))('%s is taken as it should be asked', (method, params) => {
    expect(() => checkParams(method, params)).not.toThrow();
  });
});

describe('the built server', () => {
  let client: LanguageClient;
  beforeAll(async () => {
    client = await startClient({ capabilities: PULLING });
    await client.open(URI, '1/4 D6o E6o');
  });
  afterAll(async () => {
    await client.stop();
  });

  it.each(Object.entries(WELL))(
    'answers %s with any member spoilt as invalid, or all the same, and never as a fault of its own',
    async (method, params) => {
      const codes = await Promise.all(
        [...spoilt(params)].map(([name, wrong]) =>
          client.request(method, wrong).then(
            () => ({ name, code: 0, message: '' }),
            ({ code, message }: ResponseError<unknown>) => ({ name, code, message }),
          ),
        ),
      );
      for (const { name, code, message } of codes) {
        expect([0, -32602, -32803], `${name}: ${message}`).toContain(code);
        if (code === -32602) expect(message).toContain(method);
        expect(message).not.toMatch(/undefined|TypeError|is not/);
      }
      expect(codes.some(({ code }) => code === -32602)).toBe(true);
    },
  );
});
