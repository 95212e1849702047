import { expect, it } from 'vitest';
import { readPlayer } from '../../server/player/read-player';
import type { Problem } from '../../server/rules/rule';
import { edited, stretch } from '../support/caret';
import { reading } from '../support/reading';

/** Settings, check comments and player lines with the token that is wrong between carets, and the line after the first fix. */
const SETTINGS: readonly (readonly [string, string?])[] = [
  ['tempo: 1/4 = ^fast^', 'tempo: 1/4 = 96'],
  ['tempo: 1/4 ^96^', 'tempo: 1/4 = 96'],
  ['tempo: ^1/0^ = 96', 'tempo: 1/4 = 96'],
  ['tempo: 1/4 = 96 ^bpm^', 'tempo: 1/4 = 96'],
  ['tempo: 1/4 = ^0^', 'tempo: 1/4 = 5'],
  ['tempo: 1/4 = ^9999^', 'tempo: 1/4 = 600'],
  ['tempo: 4 ^=^ 96', 'tempo: 1/4 = 96'],
  ['tempo: 8^.^ = 60', 'tempo: 1/8. = 60'],
  ['tempo: ^half^ = 60', 'tempo: 1/2 = 60'],
  ['tempo: ^dotted^ quarter = 60', 'tempo: 1/4. = 60'],
  ['tempo: ^72^', 'tempo: 1/4 = 72'],
  ['meter: ^4^', 'meter: 4/4'],
  ['meter: 4/^0^', 'meter: 4/1'],
  ['meter: 4/^5^', 'meter: 4/4'],
  ['meter: ^4:4^', 'meter: 4/4'],
  ['key: ^H^ major', 'key: B major'],
  ['key: D ^mayor^', 'key: D major'],
  ['instrument: ^violn^', 'instrument: violin'],
  ['instrument: viola ^3/5^', 'instrument: viola 17in'],
  ['instrument: violin ^325^', 'instrument: violin 325 mm'],
  ['instrument: violin ^9mm^'],
  ['instrument: cello ^cello^', 'instrument: cello'],
  ['tuning: ^G3 D4 A4^', 'tuning: G3 D4 A4 E5'],
  ['tuning: G3 D4 A4 ^E55^', 'tuning: G3 D4 A4 E5'],
  ['tuning: ^fifth^', 'tuning: fifths'],
  ['tuning: ^E5 A4 D4 G3^', 'tuning: G3 D4 A4 E5'],
  ['pitch: A4 = ^44^', 'pitch: A4 = 440'],
  ['pitch: A4 ^442^', 'pitch: A4 = 442'],
  ['pitch: ^A5^ = 442', 'pitch: A4 = 442'],
  ['hand: ^tiny^', 'hand: small'],
  ['hand: 1-2 48, ^1-9^ 72', 'hand: 1-2 48, 1-3 72'],
  ['hand: 1-2 48 ^1-3^ 72', 'hand: 1-2 48, 1-3 72'],
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

/** The text after the first fix of a problem; empty where it has none. */
function firstFix(text: string, problem: Problem | undefined): string {
  const [fix] = problem?.fixes ?? [];
  return fix ? edited(text, fix.edits) : '';
}

it.each(SETTINGS)('%s is underlined there', (fixture, fixed = '') => {
  const { text, span } = stretch(`${fixture}\n1/4 D5 E5\n`);
  const [problem, ...more] = reading(text).problems;
  expect(more).toEqual([]);
  expect(problem?.span).toEqual(span);
  expect(firstFix(text, problem).split('\n')[0]).toBe(fixed);
});

it.each(PLAYER)('in a player file, %s is underlined there', (fixture = '', fixed = '') => {
  const { text, span } = stretch(fixture);
  const [problem, ...more] = readPlayer(text).problems;
  expect(more).toEqual([]);
  expect(problem?.span).toEqual(span);
  expect(firstFix(text, problem)).toBe(fixed);
});
