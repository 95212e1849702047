import { expect, test } from 'vitest';
import { parse } from '../../grammar/parse';
import { LIGHTHOUSE } from '../support/lighthouse';
import { show } from './show';

const pitch = (at: string, letter: string, octave: number, alter = 0) => ({ at, letter, alter, octave });
const plain = (at: string, name: ReturnType<typeof pitch>, circle?: string) => ({
  at,
  kind: 'event',
  notes: [{ at, form: { at, kind: 'plain', pitch: name, ...(circle && { circle }) } }],
});

const number = (at: string) => ({ at, value: Number(at) });
const fraction = (at: string, above: number, below: number) => ({ at, above: number(`${above}`), below: number(`${below}`) });

test('the example file of the notation reads as the whole tree it describes', () => {
  const tree = parse(LIGHTHOUSE);
  const lines = tree.lines.map((line) => show(line.node, LIGHTHOUSE.slice(line.start, line.end)));
  expect(lines).toEqual([
    { kind: 'blank', comment: '// Comments run to the end of the line.' },
    { kind: 'setting', key: 'instrument', value: 'violin', parts: { family: { at: 'violin', word: 'violin' } } },
    { kind: 'setting', key: 'hand', value: 'medium', parts: { word: 'medium' } },
    { kind: 'blank' },
    { kind: 'passage', name: 'Lighthouse study, bars 1-4' },
    { kind: 'setting', key: 'tempo', value: '1/4 = 96', parts: { beat: fraction('1/4', 1, 4), bpm: number('96') } },
    { kind: 'setting', key: 'meter', value: '4/4', parts: { count: number('4'), unit: number('4') } },
    { kind: 'instruction', text: 'Full bows. Lift the touching finger as soon as the note has spoken.' },
    { kind: 'blank' },
    {
      kind: 'music',
      items: [
        { at: '1/8', kind: 'duration', numerator: 1, denominator: 8 },
        plain('D5', pitch('D5', 'D', 5)),
        plain('F#5', pitch('F#5', 'F', 5, 1)),
        plain('A5', pitch('A5', 'A', 5)),
        plain('D6o', pitch('D6', 'D', 6), 'o'),
        {
          at: 'slur(1/16 E6o F#6o G6o A6o)',
          kind: 'stroke',
          stroke: 'slur',
          word: 'slur',
          items: [
            { at: '1/16', kind: 'duration', numerator: 1, denominator: 16 },
            plain('E6o', pitch('E6', 'E', 6), 'o'),
            plain('F#6o', pitch('F#6', 'F', 6, 1), 'o'),
            plain('G6o', pitch('G6', 'G', 6), 'o'),
            plain('A6o', pitch('A6', 'A', 6), 'o'),
          ],
        },
        { at: '1/4', kind: 'duration', numerator: 1, denominator: 4 },
        plain('D7o', pitch('D7', 'D', 7), 'o'),
        { at: '|', kind: 'bar', style: '|' },
      ],
    },
    {
      kind: 'music',
      items: [
        { at: '1/4', kind: 'duration', numerator: 1, denominator: 4 },
        {
          at: 'E5<>A5 [II 1-4]',
          kind: 'event',
          notes: [
            {
              at: 'E5<>A5 [II 1-4]',
              form: { at: 'E5<>A5', kind: 'artificial', stop: pitch('E5', 'E', 5), touch: pitch('A5', 'A', 5) },
              hints: {
                at: '[II 1-4]',
                hints: [
                  { at: 'II', kind: 'string', string: 2 },
                  { at: '1-4', kind: 'fingers', stop: 1, touch: 4 },
                ],
              },
            },
          ],
        },
        {
          at: 'G5<>D6 [I fifth]',
          kind: 'event',
          notes: [
            {
              at: 'G5<>D6 [I fifth]',
              form: { at: 'G5<>D6', kind: 'artificial', stop: pitch('G5', 'G', 5), touch: pitch('D6', 'D', 6) },
              hints: {
                at: '[I fifth]',
                hints: [
                  { at: 'I', kind: 'string', string: 1 },
                  { at: 'fifth', kind: 'interval', interval: 'fifth' },
                ],
              },
            },
          ],
        },
        { at: '1/2', kind: 'duration', numerator: 1, denominator: 2 },
        {
          at: 'D6o+A6o',
          kind: 'event',
          notes: [
            { at: 'D6o', form: { at: 'D6o', kind: 'plain', pitch: pitch('D6', 'D', 6), circle: 'o' } },
            { at: 'A6o', form: { at: 'A6o', kind: 'plain', pitch: pitch('A6', 'A', 6), circle: 'o' } },
          ],
        },
        { at: '||', kind: 'bar', style: '||' },
      ],
    },
    { kind: 'blank' },
  ]);
});

test('the smallest useful file is one line', () => {
  const { lines } = parse('D6o F#6o A6o');
  expect(lines).toHaveLength(1);
  expect(lines[0]?.node).toMatchObject({
    kind: 'music',
    problems: [],
    items: [{ kind: 'event' }, { kind: 'event' }, { kind: 'event' }],
  });
});

test('no text at all is one blank line', () => {
  expect(parse('').lines).toEqual([{ start: 0, end: 0, node: { kind: 'blank', problems: [] } }]);
});

test('lines end at \\n, \\r\\n and \\r and nowhere else, and a byte order mark is space', () => {
  const text = '\uFEFFD5\nE5\r\nF5\rG5\u2028A5\r\r\n';
  const { lines } = parse(text);
  expect(lines.map(({ start, end }) => text.slice(start, end))).toEqual(['\uFEFFD5', 'E5', 'F5', 'G5\u2028A5', '', '']);
  expect(lines.flatMap(({ node }) => node.problems)).toEqual([]);
  expect(lines[0]?.node).toMatchObject({ items: [{ kind: 'event', start: 1, end: 3 }] });
  expect(parse('\uFEFFtempo: 1/4 = 60').lines[0]?.node).toMatchObject({
    kind: 'setting',
    key: { start: 1, end: 6, text: 'tempo' },
  });
});
