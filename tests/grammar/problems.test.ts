import { describe, expect, test } from 'vitest';
import { SYNTAX_CODES, type SyntaxCode } from '../../grammar/problems';
import { edited, stretch } from '../support/caret';
import { problemsOf } from './show';

/** Code, the text with the place of the problem between carets, and the text after the first fix (or none). */
const EXAMPLES: readonly (readonly [SyntaxCode, string, string?])[] = [
  ['unknown-setting', '^tmpo^: 1/4 = 96', 'tempo: 1/4 = 96'],
  ['unknown-setting', '^Tempo^: 1/4 = 96', 'tempo: 1/4 = 96'],
  ['unknown-setting', '  ^pasage^ : Lamp', '  passage : Lamp'],
  ['unknown-setting', '^bowing^: slow'],
  ['colon-missing', '^tempo^ 1/4 = 96', 'tempo: 1/4 = 96'],
  ['colon-missing', '^passage^', 'passage:'],
  ['unknown-setting', '^time signature^: 4/4', 'meter: 4/4'],
  ['unknown-setting', '^Bpm^: 96', 'tempo: 96'],
  ['unknown-setting', '^time^: 96', 'meter: 96'],
  ['unknown-setting', '^metre^: 96', 'meter: 96'],
  ['unknown-setting', '^key signature^: 96', 'key: 96'],
  ['unknown-setting', '^speed^: 96', 'tempo: 96'],
  ['unknown-setting', '^scordatura^: 96', 'tuning: 96'],
  ['unknown-setting', '^strings^: 96', 'tuning: 96'],
  ['unknown-setting', '^name^: 96', 'title: 96'],
  ['unknown-setting', '^reach^: 96', 'hand: 96'],
  ['colon-missing', ' ^tempo =^ 1/4 = 96', ' tempo: 1/4 = 96'],
  ['setting-value', '^tempo:^', 'tempo: 1/4 = 96'],
  ['setting-value', 'tempo: 1/4 ^96^', 'tempo: 1/4 = 96'],
  ['motif-name', '^motif^ = D5'],
  ['motif-name', 'motif ^night tide  song^ = D5', 'motif night-tide-song = D5'],
  ['motif-name', 'motif ^mf^ = D5'],
  ['motif-name', 'motif ^D5^ = D5'],
  ['motif-name', 'motif ^tempo^ = D5'],
  ['motif-equals', 'motif ^wave^ D5', 'motif wave = D5'],
  ['unreadable', 'D5 ^E5◇A5^', 'D5 E5<>A5'],
  ['unreadable', '^D5E5^', 'D5 E5'],
  ['unreadable', '^1/8D5^', '1/8 D5'],
  ['unreadable', '^D5/A5^', 'D5+A5'],
  ['unreadable', '^D5o-^', 'D5o_'],
  ['unreadable', '^D6oo^', 'D6o'],
  ['unreadable', "^'D5'^", 'D5'],
  ['unreadable', '^"D5^', 'D5'],
  ['unreadable', '^D5-E5-A5^', 'D5 E5 A5'],
  ['unreadable', '^@@^'],
  ['pitch-letter', '^d6^', 'D6'],
  ['pitch-letter', '^H5o^', 'B5o'],
  ['pitch-letter', '^bb4^', 'Bb4'],
  ['accidental', '^D###5^', 'D##5'],
  ['accidental', '^Cx6o^', 'C##6o'],
  ['accidental', '^D♮5^', 'D5'],
  ['accidental', '^Fis5^', 'F#5'],
  ['accidental', '^es6o^', 'Eb6o'],
  ['octave-missing', 'A6 ^F#^', 'A6 F#6'],
  ['octave-missing', '^Do^', 'D5o'],
  ['octave-range', '^D60^', 'D6o'],
  ['octave-range', '^D12^', 'D1'],
  ['duration-zero', '^1/0^', '1/8'],
  ['duration-zero', '^0/16^', '1/16'],
  ['duration-size', '^1/12345^'],
  ['duration-dots', '^1/4..^ D5', '7/16 D5'],
  ['duration-number', '^8^ D5', '1/8 D5'],
  ['duration-number', 'D5 ^7^'],
  ['unknown-dynamic', '^pppp^ D5', 'ppp D5'],
  ['note-missing', 'D5 ^accent fermata^ |', 'D5  |'],
  ['two-notes', '^fingered-tremolo^(A5 C6 E6)', '(A5 C6 E6)'],
  ['two-notes', '^fingered-tremolo^ A5', ' A5'],
  ['two-notes', 'D5 ^fingered-tremolo^(slur(A5 C6))', 'D5 (slur(A5 C6))'],
  ['two-notes', '^fingered-tremolo^(A5 p C6)', '(A5 p C6)'],
  ['two-notes', '^fingered-tremolo^ staccato(A5 C6)', ' staccato(A5 C6)'],
  ['two-notes', '^fingered-tremolo^ fingered-tremolo(A5 C6)', ' fingered-tremolo(A5 C6)'],
  ['unknown-bar', 'D5 ^|||^', 'D5 ||'],
  ['unknown-bar', 'D5 ^:|:^ E5', 'D5 :| |: E5'],
  ['unknown-bar', 'D5 ^:||^', 'D5 :|'],
  ['unknown-stroke', '^slr^(D5)', 'slur(D5)'],
  ['nested-stroke', 'up(^slur^(D5 E5) F5)'],
  ['parenthesis-missing', 'slur(D5 ^E5^', 'slur(D5 E5)'],
  ['parenthesis-missing', '^(^D5 E5)', 'slur(D5 E5)'],
  ['parenthesis-missing', '^slur^ D5 E5'],
  ['parenthesis-missing', '^up^ D5 E5'],
  ['stray-parenthesis', 'D5 E5^)^', 'D5 E5'],
  ['bracket-missing', 'A5 ^[II 1-4^ G5 [I]', 'A5 [II 1-4] G5 [I]'],
  ['bracket-missing', 'A5 ^[^', 'A5 '],
  ['stray-bracket', 'A5 II^]^', 'A5 II'],
  ['hints-without-note', '1/8 ^[II]^ D5', '1/8  D5'],
  ['hints-empty', 'D5 ^[ ]^', 'D5 '],
  ['hints-apart', 'D5 [II] ^[3]^'],
  ['unknown-hint', 'D5 [^ii^]', 'D5 [II]'],
  ['unknown-hint', 'D5 [^forth^]', 'D5 [fourth]'],
  ['unknown-hint', 'D5 [^3th^]', 'D5 [3rd]'],
  ['unknown-hint', 'D5 [^1/3^]', 'D5 [at 1/3]'],
  ['unknown-hint', 'D5 [^at^]', 'D5 [at 1/3]'],
  ['unknown-hint', 'D5 [^at 3/2^]', 'D5 [at 1/2]'],
  ['unknown-hint', 'D5 [^at 1/0^]'],
  ['unknown-hint', 'D5 [^14^]', 'D5 [1-4]'],
  ['unknown-hint', 'D5 [^minor third^]', 'D5 [minor-third]'],
  ['unknown-hint', 'D5 [^P4^]', 'D5 [fourth]'],
  ['unknown-hint', 'D5 [II^,^ 1]', 'D5 [II 1]'],
  ['unknown-hint', 'D5 [^P5^]', 'D5 [fifth]'],
  ['unknown-hint', 'D5 [^P8^]', 'D5 [octave]'],
  ['unknown-hint', 'D5 [^M3^]', 'D5 [third]'],
  ['unknown-hint', 'D5 [^m3^]', 'D5 [minor-third]'],
  ['unknown-hint', 'D5 [^M6^]', 'D5 [sixth]'],
  ['unknown-hint', 'D5 [^major-third^]', 'D5 [third]'],
  ['unknown-hint', 'D5 [^thumb^]', 'D5 [T]'],
  ['unknown-hint', 'D5 [^t^]', 'D5 [T]'],
  ['unknown-hint', 'D5 [^harmonic^]', 'D5 [natural]'],
  ['unknown-hint', 'D5 [^V^]', 'D5 [IV]'],
  ['unknown-hint', 'D5 [^IIII^]', 'D5 [IV]'],
  ['unknown-hint', 'D5 [^first^]', 'D5 [1st]'],
  ['unknown-hint', 'D5 [^second^]', 'D5 [2nd]'],
  ['unknown-hint', 'D5 [^iv^]', 'D5 [IV]'],
  ['unknown-hint', 'D5 [^11st^]', 'D5 [11th]'],
  ['unknown-hint', 'D5 [^22th^]', 'D5 [22nd]'],
  ['unknown-hint', 'D5 [^t3^]', 'D5 [T-3]'],
  ['unknown-hint', 'D5 [^1—4^]', 'D5 [1-4]'],
  ['unknown-hint', 'D5 [^1.4^]', 'D5 [1-4]'],
  ['unknown-hint', 'D5 [^44^]'],
  ['unknown-hint', 'D5 [^1-1^]'],
  ['unknown-hint', 'D5 [^0-1^]'],
  ['unknown-hint', 'D5 [^T-T^]'],
  ['unknown-hint', 'D5 [^114^]'],
  ['unknown-hint', 'D5 [^1/3x^]'],
  ['unknown-hint', 'D5 [^10/12^]', 'D5 [at 10/12]'],
  ['unknown-hint', 'D5 [II^;^ 1]', 'D5 [II 1]'],
  ['unknown-hint', 'D5 [^at 3/3^]', 'D5 [at 1/3]'],
  ['unknown-hint', 'D5 [^at 0/3^]', 'D5 [at 1/3]'],
  ['unknown-hint', 'D5 [^at 1/100^]'],
  ['unknown-hint', 'D5 [^at 1/1^]'],
  ['unknown-hint', 'D5 [^at 100/99^]', 'D5 [at 1/99]'],
  ['repeated-hint', 'D5 [1 ^2^]', 'D5 [1 ]'],
  ['repeated-hint', 'D5 [open ^stopped^]', 'D5 [open ]'],
  ['repeated-hint', 'D5 [fifth ^octave^]', 'D5 [fifth ]'],
  ['repeated-hint', 'D5 [at 1/3 ^at 1/4^]', 'D5 [at 1/3 ]'],
  ['repeated-hint', 'D5 [3rd ^4th^]', 'D5 [3rd ]'],
  ['unknown-hint', 'D5 [^0-4^]'],
  ['unknown-hint', 'D5 [^E5^]'],
  ['repeated-hint', 'D5 [I ^II^]', 'D5 [I ]'],
  ['repeated-hint', 'D5 [1 ^1-4^]', 'D5 [1 ]'],
  ['touch-missing', 'E5^<>^ D5', 'E5 D5'],
  ['touch-missing', 'D5 ^<>^ A4'],
  ['circle-misplaced', 'E5<>A5^o^', 'E5<>A5'],
  ['circle-misplaced', 'E5<>A5 = E7^o^', 'E5<>A5 = E7'],
  ['circle-misplaced', 'wave on E5^o^', 'wave on E5'],
  ['circle-misplaced', 'D6 ^o^', 'D6 '],
  ['circle-misplaced', '^D6O^', 'D6o'],
  ['sounding-missing', 'E5<>A5 ^=^ |', 'E5<>A5  |'],
  ['repeated-mark', 'D6_^_^ D6', 'D6_ D6'],
  ['repeated-mark', 'E5<>A5 = E7 ^= E6^', 'E5<>A5 = E7 '],
  ['note-missing', 'D5^+^ |', 'D5 |'],
  ['note-missing', '^slide^ |', ' |'],
  ['note-missing', '^+^ D5', ' D5'],
  ['note-missing', '^slur()^', ''],
  ['too-many-notes', 'G3+D4+A4+E5+^B5^'],
  ['motif-change', 'wave ^up^'],
  ['motif-change', 'wave ^up^ D5'],
  ['motif-change', 'wave up ^2^', 'wave up m2'],
  ['motif-change', 'wave up ^3rd^', 'wave up m3'],
  ['motif-change', 'wave down ^p5^', 'wave down P5'],
  ['motif-change', 'wave ^on^'],
  ['motif-change', 'wave on ^E^', 'wave on E5'],
  ['motif-change', 'wave ^in D up 2^', 'wave in D major up 2'],
  ['motif-change', 'wave ^in^', 'wave in D major up 2'],
  ['motif-change', 'D5 ^backwards^', 'D5 '],
  ['line-too-long', `${'D5 '.repeat(66_666)}D5^ ^E5 F5`],
  ['stray', 'D5 ^;^ E5', 'D5  E5'],
  ['stray', 'D5 ^:^ E5', 'D5  E5'],
  ['stray', '^=^ E5', ' E5'],
];

const short = (text: string) => (text.length > 50 ? `${text.slice(0, 20)}…` : text);

describe('every problem stands at its place, with a code, a message and a fix that works', () => {
  test.each(EXAMPLES.map(([code, fixture, fixed]) => ({ code, fixture, fixed, name: `${code}: ${short(fixture)}` })))(
    '$name',
    (example) => {
      const { text, span } = stretch(example.fixture);
      const found = problemsOf(text).map(({ code, from, to }) => ({ code, start: from, end: to }));
      expect(found).toEqual([{ code: example.code, ...span }]);
      const { message, fixes } = problemsOf(text)[0]!;
      // What is wrong, why, and what to do take more than one short remark.
      expect(message).toMatch(/^[\p{L}“].{30,}[.)]$/su);
      for (const fix of fixes) {
        const after = edited(text, fix.edits);
        expect(problemsOf(after).map(({ code }) => code)).not.toContain(example.code);
        expect(fix.title).toMatch(/^(Write|Remove|Close|Add) \S/);
      }
      expect(fixes[0] && edited(text, fixes[0].edits)).toBe(example.fixed);
    },
  );

  test('every code has an example here', () => {
    const shown = new Set(EXAMPLES.map(([code]) => code));
    expect(SYNTAX_CODES.filter((code) => !shown.has(code))).toEqual([]);
  });

  test('names of settings that are only near are offered nearest first', () => {
    expect(problemsOf('pith: A4 = 442')[0]?.fixes.map(({ title }) => title)[0]).toBe('Write pitch');
    expect(problemsOf('xyzzy: 3')[0]?.fixes).toEqual([]);
  });

  test('messages stay short whatever was typed', () => {
    const long = 'ξ'.repeat(5000);
    for (const text of [
      `${long}: 3`,
      `D5 [${long}]`,
      `@${long}`,
      `${'B'.repeat(3)}${'#'.repeat(4000)}4`,
      `C${'9'.repeat(4000)}`,
      `${'1'.repeat(4000)}/4`,
      `motif ${long}! = D5`,
    ]) {
      for (const { message } of problemsOf(text)) expect(message.length).toBeLessThan(700);
      expect(problemsOf(text).length).toBeGreaterThan(0);
    }
  });
});
