import { describe, expect, test } from 'vitest';
import { formatPassage } from '../../grammar/format';
import { parse } from '../../grammar/parse';
import { leastWork } from '../support/least-work';

describe('time grows with the text and no faster', () => {
  const units = [
    'D5 F#5o ',
    'slur(',
    '(',
    ')',
    '[ ',
    '[II] ',
    '@@ ',
    ':',
    '|:',
    '_',
    'x',
    'x_',
    '<>',
    '+',
    '9',
    'A#',
    '1/1.',
    '/',
    ' ',
    'ppp ',
    'up ',
    '"',
    ',D',
  ];

  test.each(units.map((unit) => [unit]))('on one line of %j', (unit) => {
    const small = unit.repeat(3_000 / unit.length);
    const large = small.repeat(24);
    const before = leastWork(3, () => parse(small));
    // For 24 times the text; a quadratic step would show as 576.
    expect(leastWork(3, () => parse(large))).toBeLessThan(150 * Math.max(before, 1));
  });

  test('over many lines', () => {
    const lines = (count: number) => Array.from({ length: count }, (_, i) => `1/8 D5 F#5o E5<>A5 [II] |  // ${i}`).join('\n');
    const small = lines(500);
    const large = lines(8_000);
    parse(small);
    const before = leastWork(3, () => parse(small));
    expect(leastWork(3, () => parse(large))).toBeLessThan(64 * before);
    const tree = parse(large);
    expect(tree.lines).toHaveLength(8_000);
    expect(formatPassage(tree).length).toBe(0);
  });
});

test('an edit in a long file costs a small part of reading it', () => {
  const text = Array.from({ length: 3_000 }, (_, i) => `1/8 D5 F#5o E5<>A5 [II] |  // ${i}`).join('\n');
  const tree = parse(text);
  const middle = text.indexOf('  // 1500');
  const edited = `${text.slice(0, middle)}|${text.slice(middle)}`;
  const whole = leastWork(3, () => parse(text));
  expect(leastWork(3, () => parse(edited, tree))).toBeLessThan(whole / 10);
});

test('a line of ten million characters is read to its bound, and says so', () => {
  const tree = parse(`${'D5 '.repeat(3_400_000)}\nE5`);
  expect(tree.lines.map(({ node }) => node.problems.map(({ code }) => code))).toEqual([['line-too-long'], []]);
  const { node } = tree.lines[0]!;
  expect(node.kind === 'music' && node.items.length).toBeGreaterThan(60_000);
});
