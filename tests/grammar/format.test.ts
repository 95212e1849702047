import { expect, test } from 'vitest';
import { formatPassage, formatted } from '../../grammar/format';
import { parse } from '../../grammar/parse';
import { edited } from '../support/caret';

test.each([
  ['  1/8   D5\tE5  ', '1/8 D5 E5'],
  ['slur ( D5 E5 )F5', 'slur(D5 E5) F5'],
  ['D5 ( E5  F5 ) [ II ]G5', 'D5 (E5 F5)[II] G5'],
  ['E6o + C7o', 'E6o+C7o'],
  ['D6o _ D6o', 'D6o_ D6o'],
  ['E5<>A5[ II  1-4 ]G5', 'E5<>A5 [II 1-4] G5'],
  ['E5<>A5=E7', 'E5<>A5 = E7'],
  ['E5   <>A4', 'E5 <>A4'],
  ['D5+ <>A4', 'D5+<>A4'],
  ['D5|E5:|', 'D5 | E5 :|'],
  ['| |', '| |'],
  ['wave   up  M2', 'wave up M2'],
  ['motif   wave=D5', 'motif wave = D5'],
  ['tempo :1/4  = 96', 'tempo : 1/4 = 96'],
  ['tempo:1/4=60', 'tempo: 1/4 = 60'],
  ['tempo: 3 / 8 .=60', 'tempo: 3/8. = 60'],
  ['hand:1-2 48mm ,1-4  98', 'hand: 1-2 48mm, 1-4 98'],
  ['tuning: G3   D4 A4  E5', 'tuning: G3 D4 A4 E5'],
  ['instrument: viola   16 in', 'instrument: viola 16 in'],
  ['tempo:  1/4 =  q', 'tempo: 1/4 =  q'],
  ['D5 //check:lone-third  off,beating hint', 'D5  //check: lone-third off, beating hint'],
  ['title:   The  quay   ', 'title: The  quay'],
  ['>Light  bow', '> Light  bow'],
  ['D5//high', 'D5  //high'],
  ['   // alone', '// alone'],
  ['\t', ''],
  ['h6 _ ; [II', 'h6_ ; [II'],
  ['\uFEFF  D5', '\uFEFFD5'],
  ['wave _', 'wave_'],
  ['wave _:', 'wave _:'],
  ['h6 _ :', 'h6 _ :'],
  ['@ _:', '@ _:'],
  ['motif +', 'motif+'],
  ['tempo//', 'tempo  //'],
  ['tempo[II]', 'tempo [II]'],
  ['D5\u00A0\u2028E5', 'D5 E5'],
])('%j becomes %j', (before, after) => {
  const kind = parse(before).lines[0]?.node.kind;
  expect(formatted(parse(before))).toBe(after);
  expect(formatted(parse(after))).toBe(after);
  expect(parse(after).lines[0]?.node.kind).toBe(kind);
});

test('line breaks of every kind stay, and two of them never become one', () => {
  expect(formatted(parse(' D5 \r\n  \r E5 \n\n'))).toBe('D5\r\n\rE5\n\n');
  expect(formatted(parse('D5\r \nE5'))).toBe('D5\r \nE5');
});

test('edits are small and can be asked for some lines only', () => {
  const text = 'D5  E5\nF5  G5\nA5 B5';
  const tree = parse(text);
  expect(formatPassage(tree)).toEqual([
    { span: { start: 2, end: 4 }, text: ' ' },
    { span: { start: 9, end: 11 }, text: ' ' },
  ]);
  expect(edited(text, formatPassage(tree, 1, 2))).toBe('D5  E5\nF5 G5\nA5 B5');
});
