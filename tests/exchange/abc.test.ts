import { describe, expect, test } from 'vitest';
import { importScore, importTunes } from '../../server/exchange/import-score';
import { lossText } from '../../server/exchange/score/losses';
import { Unreadable } from '../../server/exchange/unreadable';

const HEAD = 'X:1\nT:Harbour\nM:4/4\nL:1/8\nK:G\n';

function music(abc: string): readonly string[] {
  const { text } = importScore(abc);
  return text
    .slice(text.indexOf('\n\n') + 2)
    .trim()
    .split('\n');
}
/** The lines of music alone. */
const bars = (body: string, head = HEAD) =>
  music(head + body).filter((line, i) => i > 3 || !/^(?:passage|key|meter|clef):/.test(line));
const told = (abc: string) => importScore(abc).losses.map(lossText);

describe('a tune in ABC (The abc music standard 2.1, December 2011)', () => {
  test('octaves: C is middle C, c the one above, commas and apostrophes an octave each (4.1)', () => {
    expect(bars("C, C c c' z4 |", HEAD.replace('K:G', 'K:C'))).toEqual(['1/8 C3 C4 C5 C6 1/2 rest |']);
  });

  test('the signature, and accidentals to the end of the bar in every octave (4.2, 11.3)', () => {
    expect(bars('F ^c C =F f2 z2 | c2 F2 z4 |')).toEqual(['1/8 F#4 C#5 C#4 F4 1/4 F5 rest |', '1/4 C5 F#4 1/2 rest |']);
  });

  test('lengths, broken rhythm and tuplets (4.3, 4.4, 4.13)', () => {
    expect(bars('A2 B>c (3def A/B/ c2 z/ |')[0]).toBe('1/4 A4 3/16 B4 1/16 C5 1/12 D5 E5 F#5 1/16 A4 B4 1/4 C5 1/16 rest |');
    expect(bars('(3:2:2 A4 B2 z4 |')[0]).toBe('1/3 A4 1/6 B4 1/2 rest |');
  });

  test('ties, slurs, grace notes, chords and rests of whole bars (4.5, 4.11, 4.12, 4.17)', () => {
    expect(bars('(D2 E2) {fg}A2 [DB]2- | [DB]4 Z1 |').at(0)).toBe('slur(1/4 D4 E4) grace(1/8 F#5 G5) A4 D4_+B4_ |');
    expect(bars('D8 | Z3 | E8 |')).toEqual(['1/1 D4 |', '1/1 rest |', '1/1 rest |', '1/1 rest |', '1/1 E4 |']);
  });

  test('of several tunes the first, or the one of a number (2.2); fields before the first hold for all', () => {
    const book = `L:1/4\n\n${['D', 'E', 'F'].map((note, i) => `X:${3 * i + 2}\nT:Tune ${note}\nM:4/4\nK:C\n${note}4 |`).join('\n\n')}\n`;
    const read = (tune?: string) => importScore(book, tune === undefined ? {} : { tune });
    expect([read().title, read('5').title, read(' 08 ').title]).toEqual(['Tune D', 'Tune E', 'Tune F']);
    expect(read('5').text).toContain('1/1 E4 |');
    expect(read('5').losses.map(lossText)).toContain('whole score: left out: the other tunes of the file: 2');
    for (const wrong of ['3', 'E', '']) expect(() => read(wrong)).toThrow(/Its tunes are: 2, 5, 8\./);
    expect(() => importScore('K:C\nC4 |', { tune: '1' })).toThrow(Unreadable);
    expect(() => importScore('<score-partwise/>', { tune: '1' })).toThrow(/Only an ABC file/);
  });

  test('repeats and variant endings (4.8, 4.9)', () => {
    expect(bars('|: D8 |1 E8 :|2 F8 |: G8 :: A8 :|')).toEqual([
      '|: 1/1 D4 |',
      'ending 1 1/1 E4 :|',
      'ending 2 1/1 F#4 |:',
      '1/1 G4 :| |:',
      '1/1 A4 :|',
    ]);
  });

  test('an upbeat, and bars that a repeat cuts in two, are filled up with no rests', () => {
    const abc = `${HEAD}D2 | G8 | A6 :|: B2 | c8 | d6 :|`;
    expect(told(abc).filter((line) => line.includes('rests'))).toEqual([]);
  });

  test('decorations, dynamics and hairpins (4.14)', () => {
    expect(bars('!p!.D2 !trill!E2 !tenuto!F2 !fermata!G2 | !upbow!A2 !downbow!B2 !<(!c2 !<)!!f!d2 |')).toEqual([
      'p 1/4 staccato D4 trill E4 tenuto F#4 fermata G4 |',
      'up(1/4 A4) down(B4) crescendo C5 f D5 |',
    ]);
    expect(bars('!D.C.!D8 | !segno!E8 !fine!| F8 !dacoda!|')).toEqual([
      '1/1 D4 da capo |',
      'segno 1/1 E4 fine |',
      '1/1 F#4 to coda |',
    ]);
  });

  test('texts are directions where the language has them, jumps, or instructions (4.19)', () => {
    expect(bars('"^pizz."D4 "^arco"E4 | "^sul A"F8 |')).toEqual(['pizz 1/2 D4 arco E4 |', '> sul A', '1/1 F#4 |']);
  });

  test('the tunes of a file are named for a choice, and all of them are read', () => {
    const book = 'X:2\nT:Ebb\nK:D\nd4 |\n\nX:5\nT:Flood // tide\nK:G\ng4 |\n\nX:2\nT:Ebb again\nK:C\nc4 |\n';
    const tunes = [
      { number: '2', title: 'Ebb' },
      { number: '5', title: 'Flood / tide' },
    ];
    expect(importScore(book).tunes).toEqual(tunes);
    const all = importTunes(book);
    expect(all.map(({ number, title }) => ({ number, title }))).toEqual(tunes);
    expect(all.map(({ text }) => /[DG]5/.exec(text)?.[0])).toEqual(['D5', 'G5']);
    expect(all.flatMap(({ losses }) => losses.map(lossText)).some((line) => line.includes('other tunes'))).toBe(false);
    expect(() => importTunes('<score-partwise/>')).toThrow(/Only an ABC file/);
  });

  test('changes of key, meter and tempo inside the tune (3.2)', () => {
    expect(bars('D8 | [K:Bb] B8 | [M:3/4][Q:1/4=60] c6 |')).toEqual([
      '1/1 D4 |',
      'key: Bb major',
      '1/1 Bb4 |',
      'meter: 3/4',
      'tempo: 1/4 = 60',
      '3/4 C5 |',
    ]);
  });

  test('voices: a staff is a part, by number or name; an overlay makes double stops (7)', () => {
    const abc = 'X:1\nM:2/4\nL:1/4\nV:1 name="Violin I"\nV:2 name="Viola" clef=alto\nK:C\nV:1\nc d | e2 & c2 |\nV:2\nC2 | D2 |\n';
    expect(importScore(abc).text).toContain('1/2 E5+C5 |');
    const viola = importScore(abc, { part: 'Viola' });
    expect(viola.text).toContain('instrument: viola');
    expect(importScore(abc, { part: '2' }).text).toBe(viola.text);
    expect(viola.text).toContain('1/2 C4 |\n1/2 D4 |');
  });

  test('systems after the first change nothing that they only print again', () => {
    expect(bars('D8 |\nE8 |\n[K:D] c8 |\nc8 |')).toEqual(['1/1 D4 |', '1/1 E4 |', 'key: D major', '1/1 C#5 |', '1/1 C#5 |']);
  });

  test('what is assumed and what is left out is told', () => {
    const lines = told(`${HEAD}"Am"D8 | !nothing!E8 |\n\nX:2\nK:C\nC8|\n`);
    expect(lines).toContain('whole score: assumed: the instrument, as the tune names none: violin, by its clef');
    expect(lines).toContain('whole score: left out: the other tunes of the file: 1');
    expect(lines).toContain('bar 1: left out: a chord symbol');
    expect(lines.some((line) => line.includes('Unknown decoration: nothing'))).toBe(true);
    expect(told(`${HEAD.replace('K:G', 'K:Ddor')}D8 |`).join()).toContain('Dor as C major');
  });

  test('a tune ends at an empty line, and the fields of a file hold for it (2.2)', () => {
    expect(bars('c2 |', 'free words\n\nL:1/4\n\nX:1\nM:2/4\nK:C\n')).toEqual(['1/2 C5 |']);
    expect(bars('c8 |\n\nWords about the tune, no notes.\nABC |', 'X:1\nM:2/4\nK:C\n')).toEqual(['1/2 C5 |']);
  });

  test('what is for typesetting only is passed over, even where it never ends', () => {
    expect(bars('%%beginps\n/x { show } def\n%%endps\n%%text words\nD8 |\n%%beginps\nE8 |')).toEqual(['1/1 D4 |']);
  });

  test('no tune, or one beyond all measure, is refused in words', () => {
    expect(() => importScore('X:1\nK:C\n')).toThrow(Unreadable);
    expect(() => importScore(`${HEAD}Z99999999 |`)).toThrow(Unreadable);
    for (const body of ['|||', '(((((', '[[[[', '{{{', '!!!!', '(3(3(3', '&&&', '[K:', '\u0000', '"', '-----', '[V:9]C']) {
      try {
        importScore(HEAD + body);
      } catch (error) {
        expect(error).toBeInstanceOf(Unreadable);
      }
    }
  });
});
