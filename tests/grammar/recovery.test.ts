import { describe, expect, test } from 'vitest';
import { parse } from '../../grammar/parse';
import { problemsOf } from './show';

describe('an error costs its own piece', () => {
  const kinds = (text: string) =>
    parse(text).lines.map(({ node, start }) =>
      'items' in node ? node.items.map((item) => text.slice(start + item.start, start + item.end)) : node.kind,
    );

  test('an unreadable note keeps its time and its neighbours', () => {
    const text = '1/8 D5 H5 [II] A5 | E5';
    expect(kinds(text)).toEqual([['1/8', 'D5', 'H5 [II]', 'A5', '|', 'E5']]);
    const { node } = parse(text).lines[0]!;
    expect(node.kind === 'music' && node.items[2]).toEqual({ kind: 'rest', start: 7, end: 14, unreadable: 'H5 [II]' });
  });

  test('the readable note of a double stop stays', () => {
    const { node } = parse('h5+D6o').lines[0]!;
    expect(node.kind === 'music' && node.items).toMatchObject([
      { kind: 'event', start: 0, end: 6, notes: [{ start: 3, end: 6 }] },
    ]);
  });

  test('what can have no length takes none', () => {
    expect(kinds('D5 ; 9 pppp @@ E5')).toEqual([['D5', 'E5']]);
  });

  test('hints that do not close end before the next note', () => {
    expect(kinds('A5 [II 1-4 G5<>D6 [I fifth] E5')).toEqual([['A5 [II 1-4', 'G5<>D6 [I fifth]', 'E5']]);
  });

  test.each([
    ['at 1/99', { kind: 'node', k: 1, n: 99 }],
    ['at 10/11', { kind: 'node', k: 10, n: 11 }],
    ['T-3', { kind: 'fingers', stop: 'T', touch: 3 }],
    ['4-1', { kind: 'fingers', stop: 4, touch: 1 }],
    ['0', { kind: 'finger', finger: 0 }],
    ['2', { kind: 'finger', finger: 2 }],
    ['T', { kind: 'finger', finger: 'T' }],
    ['22nd', { kind: 'position', position: 22 }],
    ['99th', { kind: 'position', position: 99 }],
    ['minor-third', { kind: 'interval', interval: 'minor-third' }],
  ])('[%s] is a hint', (text, hint) => {
    expect(problemsOf(`D5 [${text}]`)).toEqual([]);
    expect(parse(`D5 [${text}]`).lines[0]?.node).toMatchObject({ items: [{ notes: [{ hints: { hints: [hint] } }] }] });
  });

  test.each([
    ['[1 2]', 'fingering'],
    ['[I II]', 'string'],
    ['[open stopped]', 'way of playing'],
    ['[fifth octave]', 'touched interval'],
    ['[at 1/3 at 1/4]', 'touched point'],
    ['[3rd 4th]', 'position'],
  ])('%s answers one question twice: the %s', (hints, what) => {
    expect(problemsOf(`D5 ${hints}`)[0]?.message).toContain(what);
  });

  test.each([
    ['at 4/3', 'beyond the string'],
    ['at 3/3', 'beyond the string'],
    ['at 0/3', 'no such point on the string'],
    ['at 1/0', 'no such point on the string'],
  ])('[%s]: %s', (hint, why) => expect(problemsOf(`D5 [${hint}]`)[0]?.message).toContain(why));

  test('hints that do close hold what is no hint', () => {
    const { node } = parse('A5 [II E5 3] D5').lines[0]!;
    expect(node.problems.map(({ code }) => code)).toEqual(['unknown-hint']);
    expect(node.kind === 'music' && node.items).toMatchObject([
      { notes: [{ hints: { hints: [{ kind: 'string' }, { kind: 'finger', finger: 3 }] } }] },
      { kind: 'event' },
    ]);
  });

  test('a bad line leaves the lines around it alone', () => {
    const good = parse('D5 E5\n\nF5').lines;
    const bad = parse('D5 E5\n](((+_=<>\nF5').lines;
    expect(bad[0]?.node).toEqual(good[0]?.node);
    expect(bad[2]?.node).toEqual(good[2]?.node);
  });

  test('strokes too deep to be meant are read flat, and their notes stay', () => {
    const text = `${'slur('.repeat(5000)}D5${')'.repeat(5000)} E5`;
    const { node } = parse(text).lines[0]!;
    expect(node.problems.map(({ code }) => code)).toEqual(Array(8).fill('nested-stroke'));
    let items = node.kind === 'music' ? node.items : [];
    expect(items.map(({ kind }) => kind)).toEqual(['stroke', 'event']);
    while (items[0]?.kind === 'stroke') items = items[0].items;
    expect(items).toMatchObject([{ kind: 'event', notes: [{ form: { pitch: { letter: 'D' } } }] }]);
  });

  test('no line carries more problems than can be looked at', () => {
    expect(parse('; '.repeat(5000)).lines[0]?.node.problems).toHaveLength(100);
  });
});
