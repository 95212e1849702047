import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { beforeAll, describe, expect, test } from 'vitest';
import { createOnigScanner, createOnigString, loadWASM } from 'vscode-oniguruma';
import { type IGrammar, INITIAL, parseRawGrammar, Registry } from 'vscode-textmate';
import { STRING_NAMES } from '../../grammar/hint-names';
import colouring from '../../grammar/player.tmLanguage.json';
import { PLAYER_KEY_NAMES } from '../../grammar/player-keys';
import { MANNER_WORDS } from '../../server/player/attempt-words';

let grammar: IGrammar;

beforeAll(async () => {
  await loadWASM(readFileSync(createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm')));
  const registry = new Registry({
    onigLib: Promise.resolve({ createOnigScanner, createOnigString }),
    loadGrammar: async () => parseRawGrammar(JSON.stringify(colouring), 'player.tmLanguage.json'),
  });
  grammar = (await registry.loadGrammar('source.player'))!;
});

/** The innermost scope of every coloured word, without the language at its end. */
const scopes = (line: string) =>
  grammar
    .tokenizeLine(line, INITIAL)
    .tokens.map(({ startIndex, endIndex, scopes: all }) => [
      line.slice(startIndex, endIndex).trim(),
      all.at(-1)!.replace(/\.player$/, ''),
    ])
    .filter(([text, scope]) => text !== '' && scope !== 'source');

describe('colours of a player file', () => {
  test('every key that there is', () => {
    for (const key of PLAYER_KEY_NAMES) expect(scopes(`${key}: x`)[0]).toEqual([key, 'support.type.property-name']);
    expect(scopes('nmae: x')).toEqual([]);
  });

  test('every string and every way to try it', () => {
    for (const string of STRING_NAMES) {
      for (const word of MANNER_WORDS) {
        const [first, second] = scopes(`${string} ${word}: 4 of 10`);
        expect(first).toEqual([string, 'constant.language.string']);
        expect(second).toEqual([word, word.includes('/') ? 'constant.numeric.node' : 'keyword.other.manner']);
      }
    }
  });

  test('counts and remarks', () => {
    expect(scopes('III natural 1/5: 4 of 10 // whistles').slice(4)).toEqual([
      ['4', 'constant.numeric.clean'],
      ['of', 'keyword.operator.of'],
      ['10', 'constant.numeric.tried'],
      ['//', 'punctuation.definition.comment'],
      ['whistles', 'comment.line.double-slash'],
    ]);
    expect(scopes('strings: see coast.example//gut // new').map(([text]) => text)).toEqual([
      'strings',
      ':',
      'see coast.example//gut',
      '//',
      'new',
    ]);
  });
});
