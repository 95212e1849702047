import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { formatted } from '../../grammar/format';
import { DIRECTIONS, JUMPS, MARKS, wordsPattern } from '../../grammar/marks';
import { parse } from '../../grammar/parse';
import { print } from '../../grammar/print';
import type { Item } from '../../grammar/tree';
import { itemsOf } from '../../grammar/walk';

function itemsIn(text: string): readonly Item[] {
  const { lines } = parse(text);
  expect(lines.flatMap(({ node }) => node.problems)).toEqual([]);
  return lines.flatMap(({ node }) => itemsOf(node));
}

describe('what is printed over notes', () => {
  test('one mark or several before a note', () => {
    expect(itemsIn('tenuto staccato A5+C6 [1]')).toMatchObject([
      { kind: 'event', start: 0, marks: [{ word: 'tenuto', start: 0, end: 6 }, { word: 'staccato' }], notes: [{}, {}] },
    ]);
  });

  test('a fermata or a breath over a rest, and no other', () => {
    expect(itemsIn('fermata rest')).toMatchObject([{ kind: 'rest', start: 0, end: 12, marks: [{ word: 'fermata', start: 0 }] }]);
    expect(print(parse('1/4 fermata   breath rest'))).toBe('1/4 fermata breath rest');
    const { problems } = parse('D5 trill fermata rest').lines[0]?.node ?? {};
    expect(problems).toMatchObject([{ code: 'note-missing', start: 3, end: 8 }]);
  });

  test('a mark over a group, nested with strokes, hints behind it', () => {
    expect(itemsIn('slur(staccato(A5 B5)[II])')).toMatchObject([
      { kind: 'stroke', items: [{ kind: 'group', mark: { word: 'staccato' }, items: [{}, {}], hints: {} }] },
    ]);
    expect(itemsIn('accent slur(A5 B5)')).toMatchObject([
      { kind: 'group', mark: { word: 'accent' }, items: [{ kind: 'stroke' }] },
    ]);
  });

  test.each([
    ['crescendo A5 end crescendo', 'direction'],
    ['“dolce, un poco” A5', 'direction'],
    ['open   sound A5', 'direction'],
    ['da capo  al fine', 'jump'],
    ['ending 1,2 A5', 'ending'],
    ['rest 4 bars A5', 'rest'],
    ['rest  1  bar A5', 'rest'],
  ])('%s: words that stand by themselves', (text, kind) => {
    expect(itemsIn(text)[0]).toMatchObject({ kind });
    expect(print(parse(print(parse(text))))).toBe(print(parse(text)));
  });

  test('usual spacing: no space between a mark and its parentheses', () => {
    const text = 'staccato  ( A5 B5 )  fermata   C6';
    expect(formatted(parse(text))).toBe('staccato(A5 B5) fermata C6');
  });

  test('every word has its colour', () => {
    const colours = readFileSync(new URL('../../grammar/passage.tmLanguage.json', import.meta.url), 'utf8');
    const { repository } = JSON.parse(colours);
    const patterns = repository.said.patterns.map(({ match }: { match: string }) => new RegExp(match));
    for (const { word } of [...MARKS, ...DIRECTIONS, ...JUMPS]) {
      expect([word, patterns.some((pattern: RegExp) => pattern.exec(word)?.[0] === word)]).toEqual([word, true]);
    }
    expect(wordsPattern(['da capo', 'da capo al fine'])).toBe(String.raw`da\s+capo\s+al\s+fine|da\s+capo`);
  });
});
