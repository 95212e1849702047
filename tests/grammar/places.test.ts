import { describe, expect, test } from 'vitest';
import { absolute, lineAt, pathAt } from '../../grammar/at';
import { parse } from '../../grammar/parse';
import { eventsOf, itemsOf, motifUsesOf, walkTree } from '../../grammar/walk';
import { caret } from '../support/caret';

/** What the caret is in, outermost first, as text. */
function inside(fixture: string): string[] {
  const { text, at } = caret(fixture);
  const path = pathAt(parse(text), at);
  const cut = (span: { start: number; end: number }) => {
    const { start, end } = absolute(path.line, span);
    return text.slice(start, end);
  };
  const { note, hints } = path;
  return [...path.items.map(cut), ...(note ? [`note ${cut(note)}`] : []), ...(hints ? [`hints ${cut(hints)}`] : [])];
}

describe('what stands at an offset', () => {
  test.each([
    ['D5 E^5 F5', ['E5', 'note E5']],
    ['D5 ^E5', ['E5', 'note E5']],
    ['D5^ E5', ['D5', 'note D5']],
    ['D5  ^ E5', []],
    ['D5|^|', ['||']],
    ['D5|^E5', ['E5', 'note E5']],
    ['slur(D5 E^5o+A5) F5', ['slur(D5 E5o+A5)', 'E5o+A5', 'note E5o']],
    ['slur(D5 E5o+^A5) F5', ['slur(D5 E5o+A5)', 'E5o+A5', 'note A5']],
    ['sl^ur(D5)', ['slur(D5)']],
    ['(D5 E^5)[II]', ['(D5 E5)[II]', 'E5', 'note E5']],
    ['(D5 E5)[I^I]', ['(D5 E5)[II]', 'hints [II]']],
    ['up(down(D^5))', ['up(down(D5))', 'down(D5)', 'D5', 'note D5']],
    ['D5 [II ^3]', ['D5 [II 3]', 'note D5 [II 3]', 'hints [II 3]']],
    ['wave u^p M2', ['wave up M2']],
    ['tempo: 1/^4 = 60', []],
    ['A5\nB5\n\nC6 D^6', ['D6', 'note D6']],
    ['^', []],
  ])('%s', (fixture, expected) => {
    expect(inside(fixture)).toEqual(expected);
  });
});

test('a line break belongs to the line it ends', () => {
  const tree = parse('D5\r\nE5\n\nF5');
  expect([0, 2, 3, 4, 6, 7, 8, 10, 99, -5].map((offset) => lineAt(tree, offset))).toEqual([0, 0, 0, 1, 1, 2, 3, 3, 3, 0]);
});

test('the walk visits every item in the order of the text with the strokes it is in', () => {
  const text = 'tempo: 1/4 = 60\nD5 slur(E5 up(wave)) |\nmotif wave = A5 slur(B5)';
  const visits: string[] = [];
  const tree = parse(text);
  walkTree(tree, (item, line, strokes) => {
    const { start, end } = absolute(line, item);
    visits.push(`${strokes.map(({ stroke }) => `${stroke}>`).join('')}${text.slice(start, end)}`);
  });
  expect(visits).toEqual([
    'D5',
    'slur(E5 up(wave))',
    'slur>E5',
    'slur>up(wave)',
    'slur>up>wave',
    '|',
    'A5',
    'slur(B5)',
    'slur>B5',
  ]);
  const music = itemsOf(tree.lines[1]!.node);
  expect(eventsOf(music)).toHaveLength(2);
  expect(motifUsesOf(music).map(({ name }) => name.text)).toEqual(['wave']);
  expect(itemsOf(tree.lines[0]!.node)).toEqual([]);
});
