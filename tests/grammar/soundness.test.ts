import './group-by';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MusicParser } from '../../grammar/parser';
import { TOKENS, tokenize } from '../../grammar/tokens';

describe('the grammar itself', () => {
  test('passes the checks of its parser library: no ambiguity, no left recursion, no empty loop', () => {
    expect(() => new MusicParser(true)).not.toThrow();
  });

  test('takes every sequence of tokens, so that the recovery of the library is never needed', () => {
    const parser = new MusicParser();
    const images = [
      'D5',
      'h6',
      'F#',
      'wave',
      '@',
      '1/4',
      '1/0',
      '2+2',
      'together',
      '3',
      'II',
      'at',
      'p',
      'pppp',
      'staccato',
      'crescendo',
      '"dolce"',
      '"',
      'open sound',
      'da capo al fine',
      'ending 1, 2',
      'rest',
      'rest 4 bars',
      'slide',
      'slur',
      'up',
      'down',
      'on',
      'in',
    ];
    const words = [
      ...images,
      'backwards',
      'motif',
      'major',
      'M2',
      'A4',
      'slur(',
      'foo(',
      'o',
      '(',
      ')',
      '[',
      ']',
      '<>',
      '<',
      '+',
      '=',
      '_',
      '|',
      ':|:',
      ':',
      ',',
    ];
    const seen = new Set<string>();
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constantFrom(...words), fc.constantFrom('', ' ')), { maxLength: 30 }), (pieces) => {
        const line = pieces.map(([word, space]) => word + space).join('');
        for (const { tokenType } of tokenize(line)) seen.add(tokenType.name);
        const items = parser.parseMusic(line, () => {});
        expect(parser.errors).toEqual([]);
        expect(items).toBeInstanceOf(Array);
        parser.parseMotif(`motif ${line}`, () => {});
        expect(parser.errors).toEqual([]);
      }),
      { seed: 20, numRuns: 1000 },
    );
    const concrete = TOKENS.filter(
      ({ PATTERN, GROUP }) => PATTERN instanceof RegExp && PATTERN.source !== 'NOT_APPLICABLE' && GROUP !== 'SKIPPED',
    );
    expect(concrete.map(({ name }) => name).filter((name) => !seen.has(name) && name !== 'Space')).toEqual([]);
  });

  test('reads every character into some token', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        const line = text.replace(/[\r\n]/g, ' ');
        let at = 0;
        for (const { startOffset, image } of tokenize(line)) {
          expect(line.slice(at, startOffset).trim()).toBe('');
          at = startOffset + image.length;
        }
        expect(line.slice(at).trim()).toBe('');
      }),
      { seed: 21, numRuns: 500 },
    );
  });
});
