import { describe, expect, it } from 'vitest';
import { jsonPieces, jsonText } from '../../server/command/json-text';

const NESTED = {
  passages: [{ title: 'One', events: [{ notes: [{ mm: 1.5, stop: { finger: '1' } }], terms: {} }, { notes: [] }], cost: 0 }],
  absent: undefined,
  none: null,
  empty: [],
  words: ['a\nb', 'c"d'],
};

describe('JSON in pieces', () => {
  it('is the text that JSON.stringify indents by two, with what lies deep, an event of a passage, on one line', () => {
    const two = (value: unknown) => JSON.stringify(value, null, 2);
    expect(JSON.parse(jsonText(NESTED))).toEqual(JSON.parse(two(NESTED)));
    expect(jsonText(NESTED).split('\n')).toContain('        {"notes":[{"mm":1.5,"stop":{"finger":"1"}}],"terms":{}},');
    for (const value of ['text', 7, null, [], {}, [[[1]]], { a: [{ b: true }, 'c'] }]) expect(jsonText(value)).toBe(two(value));
  });

  it('escapes what a terminal would obey, in names as in values', () => {
    expect(jsonText({ 'a\u202eb': ['\u009b', { 'c\x7f': [{ deep: { deeper: '\u2066' } }] }] })).not.toMatch(
      /[\x7f-\x9f\u202a-\u202e\u2066]/,
    );
  });

  it('asks for the items of an iterable one by one, as they are written', () => {
    let asked = 0;
    const items = (function* () {
      for (; asked < 1000; asked++) yield { at: asked };
    })();
    const pieces = jsonPieces({ items });
    for (let piece = 0; piece < 20; piece++) pieces.next();
    expect(asked).toBeLessThan(10);
    expect(JSON.parse(jsonText({ items: new Set([1, 2]) }))).toEqual({ items: [1, 2] });
  });
});
