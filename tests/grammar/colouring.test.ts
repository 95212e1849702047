import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { beforeAll, describe, expect, test } from 'vitest';
import { createOnigScanner, createOnigString, loadWASM } from 'vscode-oniguruma';
import { type IGrammar, INITIAL, parseRawGrammar, Registry } from 'vscode-textmate';
import configuration from '../../grammar/language-configuration.json';
import colouring from '../../grammar/passage.tmLanguage.json';
import { SETTINGS } from '../../grammar/settings';

let grammar: IGrammar;

beforeAll(async () => {
  const wasm = readFileSync(createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm'));
  await loadWASM(wasm);
  const registry = new Registry({
    onigLib: Promise.resolve({ createOnigScanner, createOnigString }),
    loadGrammar: async () => parseRawGrammar(JSON.stringify(colouring), 'passage.tmLanguage.json'),
  });
  grammar = (await registry.loadGrammar('source.passage'))!;
});

/** The coloured pieces of a line: text and innermost scope, without the language at its end. */
function coloured(line: string): [string, string][] {
  return grammar
    .tokenizeLine(line, INITIAL)
    .tokens.map(({ startIndex, endIndex, scopes }): [string, string] => [
      line.slice(startIndex, endIndex).trim(),
      scopes[scopes.length - 1]!.replace(/\.passage$/, ''),
    ])
    .filter(([text, scope]) => text !== '' && scope !== 'source');
}

describe('colours of', () => {
  test('music', () => {
    expect(coloured('1/8 F#5 D6o slur(p A5_) | E5<>A5 = E7 [II 1-4] D6°+B♭3 rest slide :|// c')).toEqual([
      ['1/8', 'constant.numeric.duration'],
      ['F#5', 'variable.other.pitch'],
      ['D6', 'variable.other.pitch'],
      ['o', 'constant.language.harmonic'],
      ['slur', 'keyword.control.stroke'],
      ['p', 'support.constant.dynamic'],
      ['A5', 'variable.other.pitch'],
      ['_', 'keyword.operator.tie'],
      ['|', 'punctuation.separator.bar'],
      ['E5', 'variable.other.pitch'],
      ['<>', 'keyword.operator.diamond'],
      ['A5', 'variable.other.pitch'],
      ['=', 'keyword.operator.sounding'],
      ['E7', 'variable.other.pitch'],
      ['[', 'punctuation.definition.hints.begin'],
      ['II', 'constant.language.string'],
      ['1-4', 'constant.numeric.finger'],
      [']', 'punctuation.definition.hints.end'],
      ['D6', 'variable.other.pitch'],
      ['°', 'constant.language.harmonic'],
      ['+', 'keyword.operator.double-stop'],
      ['B♭3', 'variable.other.pitch'],
      ['rest', 'constant.language.rest'],
      ['slide', 'keyword.other.slide'],
      [':|', 'punctuation.separator.bar'],
      ['//', 'punctuation.definition.comment'],
      ['c', 'comment.line.double-slash'],
    ]);
  });

  test('hints', () => {
    expect(coloured('[IV T-3 0 at 1/3 3rd minor-third open nonsense]').map(([text, scope]) => `${text} ${scope}`)).toEqual([
      '[ punctuation.definition.hints.begin',
      'IV constant.language.string',
      'T-3 constant.numeric.finger',
      '0 constant.numeric.finger',
      'at keyword.other.hint',
      '1/3 constant.numeric.node',
      '3rd constant.numeric.position',
      'minor-third keyword.other.hint',
      'open keyword.other.hint',
      'nonsense meta.hints',
      '] punctuation.definition.hints.end',
    ]);
  });

  test('settings, passages, instructions and comments', () => {
    for (const { key, example } of SETTINGS) {
      expect(coloured(`${key}: ${example} // c`).slice(0, 3)).toEqual([
        [key, 'support.type.property-name'],
        [':', 'punctuation.separator.key-value'],
        [example, 'string.unquoted.value'],
      ]);
    }
    expect(coloured('title: https://quay.example')[2]).toEqual(['https://quay.example', 'string.unquoted.value']);
    expect(coloured('title://all comment')[3]).toEqual(['all comment', 'comment.line.double-slash']);
    expect(coloured('passage: Night')).toEqual([
      ['passage', 'keyword.other.passage'],
      [':', 'punctuation.separator.key-value'],
      ['Night', 'entity.name.section'],
    ]);
    expect(coloured('> Slow bow')).toEqual([
      ['>', 'punctuation.definition.quote.begin'],
      ['Slow bow', 'markup.quote'],
    ]);
    expect(coloured('wave: 3')[0]?.[1]).not.toBe('support.type.property-name');
  });

  test('motifs', () => {
    expect(coloured('motif wave = D5').slice(0, 3)).toEqual([
      ['motif', 'keyword.other.motif'],
      ['wave', 'entity.name.function.motif'],
      ['=', 'keyword.operator.assignment'],
    ]);
    expect(coloured('wave up M2 in D major down 2 on E5 backwards').map(([text, scope]) => `${text} ${scope}`)).toEqual([
      'wave entity.name.function.motif',
      'up keyword.other.change',
      'M2 constant.numeric.interval',
      'in keyword.other.change',
      'D variable.other.key',
      'major variable.other.key',
      'down keyword.other.change',
      '2 constant.numeric.interval',
      'on keyword.other.change',
      'E5 variable.other.pitch',
      'backwards keyword.other.change',
    ]);
  });

  test('nothing that the language does not have', () => {
    for (const text of ['H5', 'd6', 'D', 'F#60', 'D5E5']) {
      expect(coloured(text).map(([, scope]) => scope)).not.toContain('variable.other.pitch');
    }
  });
});

test('a double click takes a pitch, a fraction or a name as one word', () => {
  const words = 'slur(1/8. F#6o_ E5<>A5 [II 1-4] wave_2 B♭3+C𝄪6) minor-third'.match(new RegExp(configuration.wordPattern, 'g'));
  expect(words).toEqual(['slur', '1/8.', 'F#6o', 'E5', 'A5', 'II', '1-4', 'wave_2', 'B♭3', 'C𝄪6', 'minor-third']);
});
