import { describe, expect, test } from 'vitest';
import { parse } from '../../grammar/parse';
import { resolve } from '../../server/passage/resolve';
import { barOrder } from '../../server/scene/sound/bar-order';

/** Bars as `1 2 1 3`, counted from 1, of a passage with one note to a bar. How signs are followed: common practice, no source. */
function played(text: string): string {
  const { passages, problems } = resolve(parse(`1/4 ${text}`));
  expect(problems).toEqual([]);
  const bars = passages[0]?.bars.map((bar) => ({ ...bar, length: '1/4', meter: '1/4', pieces: [] })) ?? [];
  return barOrder(bars as never)
    .map(({ bar }) => bar + 1)
    .join(' ');
}

describe('the order in which bars are played', () => {
  test.each([
    ['no signs', 'A4 | A4 | A4 ||', '1 2 3'],
    ['a repeat from the start', 'A4 | A4 :| A4 ||', '1 2 1 2 3'],
    ['a repeat from its sign', 'A4 |: A4 | A4 :| A4 ||', '1 2 3 2 3 4'],
    ['two repeats', 'A4 :| |: A4 :|', '1 1 2 2'],
    ['two endings', '|: A4 | ending 1 A4 :| ending 2 A4 || A4 ||', '1 2 1 3 4'],
    ['an ending of several bars', '|: A4 | ending 1 A4 | A4 :| ending 2 A4 | A4 || A4 :|', '1 2 3 1 4 5 6 6'],
    ['three times', '|: A4 | ending 1, 2 A4 :| ending 3 A4 ||', '1 2 1 2 1 3'],
    ['da capo al fine', 'A4 | A4 fine | A4 | A4 da capo al fine ||', '1 2 3 4 1 2'],
    ['dal segno al fine', 'A4 | segno A4 | A4 fine | A4 dal segno al fine ||', '1 2 3 4 2 3'],
    ['to the coda', 'A4 | A4 to coda | A4 | A4 da capo al coda || coda A4 ||', '1 2 3 4 1 2 5'],
    ['no repeats after a da capo', 'A4 :| A4 fine || A4 | da capo al fine', '1 1 2 3 1 2'],
    ['the last ending after a da capo', '|: A4 | ending 1 A4 :| ending 2 A4 fine || A4 da capo al fine ||', '1 2 1 3 4 1 3'],
  ])('%s', (_, text, order) => expect(played(text)).toBe(order));
});
