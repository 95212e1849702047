import { describe, expect, it } from 'vitest';
import { readPlayer } from '../../server/player/read-player';
import { edited, stretch } from '../support/caret';
import { reading } from '../support/reading';

/** The place of the problem between carets, and the line once its first fix is made; none where nobody can know what was meant. */
const SETTINGS: readonly (readonly [string, string?])[] = [
  ['instrument: ^violn^ 3/4', 'instrument: violin 3/4'],
  ['instrument: violin ^5/4^', 'instrument: violin 4/4'],
  ['instrument: violin ^900mm^'],
  ['instrument: violin ^big^', 'instrument: violin 4/4'],
  ['instrument: violin 3/4 ^old^', 'instrument: violin 3/4'],
  ['instrument: ^3^/4 violin', 'instrument: violin 3/4'],
  ['tuning: G3 D4 ^H4^ E5', 'tuning: G3 D4 B4 E5'],
  ['tuning: G3 D4 A4 ^E7^', 'tuning: G3 D4 A4 E5'],
  ['tuning: ^G3 D4 A4^', 'tuning: G3 D4 A4 E5'],
  ['tuning: ^fifth^', 'tuning: fifths'],
  ['pitch: A4 ^442^', 'pitch: A4 = 442'],
  ['pitch: ^442^', 'pitch: A4 = 442'],
  ['pitch: A4 = ^4400^', 'pitch: A4 = 440'],
  ['hand: 1-2 48, ^1-9^ 72', 'hand: 1-2 48, 1-3 72'],
  ['hand: 1-2 48 ^1-3^ 72', 'hand: 1-2 48, 1-3 72'],
  ['hand: 1-2 48, 1-4 ^980^', 'hand: 1-2 48, 1-4 98'],
  ['hand: ^T-3^ 80, 1-4 98'],
  ['hand: 1-2 60, ^1-3 50^'],
  ['hand: child ^30^', 'hand: child 15'],
  ['hand: ^child^'],
  ['hand: ^midium^', 'hand: medium'],
  ['hand: 1-2 48,^,^ 1-4 98', 'hand: 1-2 48, 1-4 98'],
  ['^tempo:^', 'tempo: 1/4 = 96'],
  ['tempo: ^96^', 'tempo: 1/4 = 96'],
  ['tempo: 1/4 ^96^', 'tempo: 1/4 = 96'],
  ['tempo: 1/4 = ^700^', 'tempo: 1/4 = 600'],
  ['tempo: ^1/0^ = 96', 'tempo: 1/4 = 96'],
  ['tempo: 1/4 = 96 ^bpm^', 'tempo: 1/4 = 96'],
  ['meter: 4/^5^', 'meter: 4/4'],
  ['meter: ^0^/4', 'meter: 1/4'],
  ['meter: ^4:4^', 'meter: 4/4'],
  ['key: Bb ^mnor^', 'key: Bb minor'],
  ['key: ^Fis^ major', 'key: F# major'],
  ['key: ^F#^', 'key: F# major'],
  ['temperament: ^just^', 'temperament: just D'],
  ['harmonics: ^allowd^', 'harmonics: allowed'],
  ['1/4 D5 // check: ^lone-thrid^ off', '1/4 D5 // check: lone-third off'],
  ['1/4 D5 // check: lone-third ^of^, beating hint', '1/4 D5 // check: lone-third off, beating hint'],
  ['// check file: lone-third off, ^beeting^ hint', '// check file: lone-third off, beating hint'],
  ['tempo: 1/4 = ^fast^', 'tempo: 1/4 = 96'],
  ['tempo: 1/4 = ^0^', 'tempo: 1/4 = 5'],
  ['tempo: 1/4 = ^9999^', 'tempo: 1/4 = 600'],
  ['tempo: 4 ^=^ 96', 'tempo: 1/4 = 96'],
  ['tempo: 8^.^ = 60', 'tempo: 1/8. = 60'],
  ['tempo: ^half^ = 60', 'tempo: 1/2 = 60'],
  ['tempo: ^dotted^ quarter = 60', 'tempo: 1/4. = 60'],
  ['tempo: ^72^', 'tempo: 1/4 = 72'],
  ['meter: ^4^', 'meter: 4/4'],
  ['meter: 4/^0^', 'meter: 4/1'],
  ['key: ^H^ major', 'key: B major'],
  ['key: D ^mayor^', 'key: D major'],
  ['instrument: ^violn^', 'instrument: violin'],
  ['instrument: viola ^3/5^', 'instrument: viola 17in'],
  ['instrument: violin ^325^', 'instrument: violin 325 mm'],
  ['instrument: violin ^9mm^'],
  ['instrument: cello ^cello^', 'instrument: cello'],
  ['tuning: G3 D4 A4 ^E55^', 'tuning: G3 D4 A4 E5'],
  ['tuning: ^E5 A4 D4 G3^', 'tuning: G3 D4 A4 E5'],
  ['pitch: A4 = ^44^', 'pitch: A4 = 440'],
  ['pitch: ^A5^ = 442', 'pitch: A4 = 442'],
  ['hand: ^tiny^', 'hand: small'],
  ['hand: ^2-1^ 48', 'hand: 1-2 48'],
  ['hand: ^4-1^ 98, 1-2 48', 'hand: 1-4 98, 1-2 48'],
  ['hand: 1-2 48, ^2-1^ 50'],
  ['hand: 1-2 ^foo^'],
  ['hand: 1-2 ^480^', 'hand: 1-2 48'],
  ['hand: child ^99^', 'hand: child 15'],
  ['temperament: ^equel^', 'temperament: equal'],
  ['temperament: just ^H^', 'temperament: just B'],
  ['harmonics: ^some^', 'harmonics: marked'],
  ['level: ^expert^', 'level: student'],
  ['// check: ^lone-thrid^ off', '// check: lone-third off'],
  ['// check: lone-third ^of^', '// check: lone-third off'],
  ['// check: ^lone-third^', '// check: lone-third off'],
  ['// check file: beating off, lone-third ^warnin^', '// check file: beating off, lone-third warning'],
];

const PLAYER: readonly (readonly [string, string?])[] = [
  ['hand: 1-2 48, ^1-9^ 72', 'hand: 1-2 48, 1-3 72'],
  ['comfort: ^70^', 'comfort: 70 %'],
  ['comfort: ^10^ %', 'comfort: 30 %'],
  ['comfort: 1-4 ^8^'],
  ['in tune: 12 ^mm^', 'in tune: 12 cents'],
  ['landing: ^1.5^', 'landing: 1.5 mm'],
  ['landing: ^80^ mm', 'landing: 10 mm'],
  ['III ^2/10^: 1 of 2', 'III 1/5: 1 of 2'],
  ['II ^fuorth^: 1 of 2', 'II fourth: 1 of 2'],
  ['III 1/5: 3 ^from^ 4', 'III 1/5: 3 of 4'],
  ['III 1/5: ^often^', 'III 1/5: 0 of 1'],
  ['^hnd^: small', 'hand: small'],
  ['hand: ^smal^', 'hand: small'],
  ['comfort: ^170^ %', 'comfort: 100 %'],
  ['in tune: ^lots^'],
  ['level: ^pro^', 'level: professional'],
  ['instrument: violin ^3/5^', 'instrument: violin 3/4'],
  ['III 1/5: 4 ^off^ 10', 'III 1/5: 4 of 10'],
  ['III 1/5: ^14 of 10^', 'III 1/5: 10 of 14'],
  ['III ^2/6^: 4 of 10', 'III 1/3: 4 of 10'],
  ['III ^fourht^: 4 of 10', 'III fourth: 4 of 10'],
  ['I ^stoped^: 14/15', 'I stopped: 14/15'],
  ['^V 1/5^: 4 of 10'],
];

describe('what is badly written is marked at the very word, and mended there', () => {
  it('in more than ninety lines', () => {
    expect(SETTINGS.length + PLAYER.length).toBeGreaterThan(90);
  });

  it.each(SETTINGS.map(([fixture, mended]) => ({ fixture, mended })))('$fixture', ({ fixture, mended }) => {
    const { text, span } = stretch(fixture);
    const problems = (text: string) => reading(`${text}\n1/4 D5`).problems;
    const [found, ...others] = problems(text);
    expect(others).toEqual([]);
    expect(found?.span).toEqual(span);
    const [fix] = found?.fixes ?? [];
    expect(fix && edited(text, fix.edits)).toBe(mended);
    if (mended !== undefined) expect(problems(mended)).toEqual([]);
  });

  it.each(PLAYER.map(([fixture, mended]) => ({ fixture, mended })))('player file: $fixture', ({ fixture, mended }) => {
    const { text, span } = stretch(fixture);
    const [found, ...others] = readPlayer(text).problems;
    expect(others).toEqual([]);
    expect(found?.span).toEqual(span);
    const [fix] = found?.fixes ?? [];
    expect(fix && edited(text, fix.edits)).toBe(mended);
    if (mended !== undefined) expect(readPlayer(mended).problems).toEqual([]);
  });
});
