import { Note } from 'tonal';
import { describe, expect, test } from 'vitest';
import type { Item, NoteNode } from '../../grammar/tree';
import { only, shown } from './show';

function items(line: string): readonly Item[] {
  const node = only(line);
  expect(node.problems).toEqual([]);
  expect(node.kind).toBe('music');
  return node.kind === 'music' ? node.items : [];
}

function note(line: string): NoteNode {
  const [event] = items(line);
  expect(event?.kind).toBe('event');
  return (event as Extract<Item, { kind: 'event' }>).notes[0]!;
}

describe('durations are exact fractions of a whole note', () => {
  test.each([
    ['1/8', 1, 8],
    ['3/8', 3, 8],
    ['1/12', 1, 12],
    ['1/4.', 3, 8],
    ['1/2.', 3, 4],
    ['3/16.', 9, 32],
    ['1/1', 1, 1],
    ['9999/9999', 9999, 9999],
  ])('%s', (text, numerator, denominator) => {
    expect(items(text)).toEqual([{ kind: 'duration', start: 0, end: text.length, numerator, denominator }]);
  });
});

describe('pitches', () => {
  test('every spelling of letter, accidental and octave is the pitch that tonal reads', () => {
    // tonal 6.4 (npm), a general library of note names in scientific pitch notation.
    for (const letter of 'ABCDEFG') {
      for (const accidental of ['', '#', '##', 'b', 'bb']) {
        for (let octave = 0; octave <= 9; octave++) {
          const text = `${letter}${accidental}${octave}`;
          const known = Note.get(text);
          const { form } = note(text);
          expect(form).toEqual({
            kind: 'plain',
            start: 0,
            end: text.length,
            pitch: { start: 0, end: text.length, letter: known.letter, alter: known.alt, octave: known.oct },
          });
        }
      }
    }
  });

  test.each([
    ['F♯5', 1],
    ['B♭3', -1],
    ['C♯♯6', 2],
    ['E♭♭5', -2],
    ['C𝄪6', 2],
    ['E𝄫5', -2],
  ])('%s takes the sign of print', (text, alter) => {
    const { form } = note(`${text}o`);
    expect(form).toMatchObject({
      kind: 'plain',
      pitch: { start: 0, end: text.length, alter },
      circle: { start: text.length, end: text.length + 1 },
    });
  });

  test('positions after a sign outside the basic plane count UTF-16 units', () => {
    const line = 'C𝄪6 D5';
    expect(items(line)[1]).toMatchObject({ start: 5, end: 7 });
  });

  test('both circles mark a harmonic', () => {
    for (const text of ['D6o', 'D6°']) expect(note(text).form).toMatchObject({ pitch: { end: 2 }, circle: { start: 2, end: 3 } });
    expect(note('D6').form).not.toHaveProperty('circle');
  });
});

describe('diamonds', () => {
  test('joined to the pitch before it, it is the touched note of an artificial harmonic', () => {
    expect(shown('E5<>A5')).toMatchObject({
      items: [{ at: 'E5<>A5', notes: [{ form: { kind: 'artificial', stop: { at: 'E5' }, touch: { at: 'A5' } } }] }],
    });
  });

  test('apart from it, it is a natural harmonic of its own', () => {
    expect(shown('E5 <>A4')).toMatchObject({
      items: [{ at: 'E5' }, { at: '<>A4', notes: [{ form: { at: '<>A4', kind: 'diamond', touch: { at: 'A4', octave: 4 } } }] }],
    });
  });

  test('the sounding pitch that is expected', () => {
    expect(shown('E5<>A5 = E7')).toMatchObject({
      items: [{ at: 'E5<>A5 = E7', notes: [{ expected: { at: '= E7', pitch: { at: 'E7' } } }] }],
    });
  });
});

describe('events', () => {
  test('a double stop, each note with its own marks and hints', () => {
    expect(shown('slide E6o_ [II 3]+C7o [I at 1/4]')).toEqual({
      kind: 'music',
      items: [
        {
          at: 'slide E6o_ [II 3]+C7o [I at 1/4]',
          kind: 'event',
          slide: 'slide',
          notes: [
            {
              at: 'E6o_ [II 3]',
              form: { at: 'E6o', kind: 'plain', pitch: { at: 'E6', letter: 'E', alter: 0, octave: 6 }, circle: 'o' },
              tie: '_',
              hints: {
                at: '[II 3]',
                hints: [
                  { at: 'II', kind: 'string', string: 2 },
                  { at: '3', kind: 'finger', finger: 3 },
                ],
              },
            },
            {
              at: 'C7o [I at 1/4]',
              form: { at: 'C7o', kind: 'plain', pitch: { at: 'C7', letter: 'C', alter: 0, octave: 7 }, circle: 'o' },
              hints: {
                at: '[I at 1/4]',
                hints: [
                  { at: 'I', kind: 'string', string: 1 },
                  { at: 'at 1/4', kind: 'node', k: 1, n: 4 },
                ],
              },
            },
          ],
        },
      ],
    });
  });

  test('marks of a note in any order and spacing', () => {
    const written = [note('E5<>A5 = E7_ [II]'), note('E5<>A5[II]_=E7'), note('E5<>A5 _ [ II ] =  E7')];
    for (const { expected, tie, hints } of written) {
      expect(expected?.pitch).toMatchObject({ letter: 'E', octave: 7 });
      expect(tie).toBeDefined();
      expect(hints?.hints).toMatchObject([{ kind: 'string', string: 2 }]);
    }
  });
});

test('every hint', () => {
  const line = (hint: string) => `D6o [${hint}]`;
  const all: [string, object][] = [
    ['I', { kind: 'string', string: 1 }],
    ['IV', { kind: 'string', string: 4 }],
    ['0', { kind: 'finger', finger: 0 }],
    ['4', { kind: 'finger', finger: 4 }],
    ['T', { kind: 'finger', finger: 'T' }],
    ['1-4', { kind: 'fingers', stop: 1, touch: 4 }],
    ['T-3', { kind: 'fingers', stop: 'T', touch: 3 }],
    ['open', { kind: 'manner', manner: 'open' }],
    ['stopped', { kind: 'manner', manner: 'stopped' }],
    ['natural', { kind: 'manner', manner: 'natural' }],
    ['artificial', { kind: 'manner', manner: 'artificial' }],
    ['fourth', { kind: 'interval', interval: 'fourth' }],
    ['fifth', { kind: 'interval', interval: 'fifth' }],
    ['third', { kind: 'interval', interval: 'third' }],
    ['minor-third', { kind: 'interval', interval: 'minor-third' }],
    ['octave', { kind: 'interval', interval: 'octave' }],
    ['sixth', { kind: 'interval', interval: 'sixth' }],
    ['at 1/3', { kind: 'node', k: 1, n: 3 }],
    ['at 2/5', { kind: 'node', k: 2, n: 5 }],
    ['1st', { kind: 'position', position: 1 }],
    ['2nd', { kind: 'position', position: 2 }],
    ['3rd', { kind: 'position', position: 3 }],
    ['11th', { kind: 'position', position: 11 }],
    ['22nd', { kind: 'position', position: 22 }],
  ];
  for (const [text, hint] of all) expect(note(line(text)).hints?.hints).toEqual([{ ...hint, start: 5, end: 5 + text.length }]);
});

test('dynamics, rests, bars', () => {
  expect(items('pp p mp mf f ff').map((item) => item.kind === 'dynamic' && item.level)).toEqual([
    'pp',
    'p',
    'mp',
    'mf',
    'f',
    'ff',
  ]);
  expect(items('rest | || |: :|')).toEqual([
    { kind: 'rest', start: 0, end: 4 },
    { kind: 'bar', start: 5, end: 6, style: '|' },
    { kind: 'bar', start: 7, end: 9, style: '||' },
    { kind: 'bar', start: 10, end: 12, style: '|:' },
    { kind: 'bar', start: 13, end: 15, style: ':|' },
  ]);
  expect(items('D5:|').map(({ kind }) => kind)).toEqual(['event', 'bar']);
});

test('bow strokes', () => {
  for (const word of ['slur', 'up', 'down']) {
    expect(shown(`${word} ( D5 | E5 )`)).toMatchObject({
      items: [
        { at: `${word} ( D5 | E5 )`, kind: 'stroke', stroke: word, word, items: [{ at: 'D5' }, { at: '|' }, { at: 'E5' }] },
      ],
    });
  }
});

describe('motifs', () => {
  test('a definition', () => {
    expect(shown('motif wave = 1/16 D5 E5 // c')).toMatchObject({
      kind: 'motif',
      name: 'wave',
      items: [{ at: '1/16' }, { at: 'D5' }, { at: 'E5' }],
      comment: '// c',
    });
    expect(shown('motif Küste_2 = D5')).toMatchObject({ kind: 'motif', name: 'Küste_2' });
  });

  test('uses with every change', () => {
    expect(shown('wave wave up M2 wave down P4 on E5 wave in Bb minor down 12 backwards')).toEqual({
      kind: 'music',
      items: [
        { at: 'wave', kind: 'motif', name: 'wave', changes: [] },
        {
          at: 'wave up M2',
          kind: 'motif',
          name: 'wave',
          changes: [{ at: 'up M2', kind: 'interval', direction: 'up', interval: 'M2' }],
        },
        {
          at: 'wave down P4 on E5',
          kind: 'motif',
          name: 'wave',
          changes: [
            { at: 'down P4', kind: 'interval', direction: 'down', interval: 'P4' },
            { at: 'on E5', kind: 'on', pitch: { at: 'E5', letter: 'E', alter: 0, octave: 5 } },
          ],
        },
        {
          at: 'wave in Bb minor down 12 backwards',
          kind: 'motif',
          name: 'wave',
          changes: [
            {
              at: 'in Bb minor down 12',
              kind: 'diatonic',
              direction: 'down',
              steps: 12,
              tonic: { at: 'Bb', letter: 'B', alter: -1 },
              mode: 'minor',
            },
            { at: 'backwards', kind: 'backwards' },
          ],
        },
      ],
    });
  });

  test('a stroke after a motif is no change of it', () => {
    expect(shown('wave up(D5 E5) wave up A4 A4')).toMatchObject({
      items: [{ at: 'wave' }, { at: 'up(D5 E5)', kind: 'stroke' }, { at: 'wave up A4' }, { at: 'A4', kind: 'event' }],
    });
  });
});

describe('lines of words', () => {
  test('settings keep their value as it is', () => {
    expect(shown('  pitch :  A4 = 442   // concert')).toEqual({
      kind: 'setting',
      key: 'pitch',
      value: 'A4 = 442',
      parts: { hz: { at: '442', value: 442 } },
      comment: '// concert',
    });
    expect(shown('title:')).toEqual({ kind: 'setting', key: 'title', value: '', parts: '' });
  });

  test('a comment needs a space before it only where words may hold slashes', () => {
    expect(shown('title: https://harbour.example/études // draft')).toMatchObject({
      value: 'https://harbour.example/études',
      comment: '// draft',
    });
    expect(shown('title://all comment')).toMatchObject({ value: '', comment: '//all comment' });
    expect(shown('D5//A5')).toMatchObject({ items: [{ at: 'D5' }], comment: '//A5' });
  });

  test('an instruction and a passage', () => {
    expect(shown('> Light bow: slow. // me')).toEqual({ kind: 'instruction', text: 'Light bow: slow.', comment: '// me' });
    expect(shown('passage: Night: the lamp')).toEqual({ kind: 'passage', name: 'Night: the lamp' });
    expect(shown('passage:')).toEqual({ kind: 'passage', name: '' });
  });

  test('a repeat after a note is no colon of a setting', () => {
    expect(shown('D5 :|')).toMatchObject({ kind: 'music' });
    expect(shown('wave :|')).toMatchObject({ kind: 'music', items: [{ at: 'wave' }, { at: ':|' }] });
  });
});
