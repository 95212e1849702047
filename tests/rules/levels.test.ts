import { describe, expect, it } from 'vitest';
import manifest from '../../package.json';
import { CODES } from '../../server/rules/check';
import type { Levels } from '../../server/rules/levels';
import { stretch } from '../support/caret';
import { reading } from '../support/reading';

const THIRD = '1/4 F#6o [IV third]';

/** `code level` of every problem of a text under settings. */
function levels(text: string, rules: Levels = {}): readonly string[] {
  return reading(text, { rules }).problems.map(({ code, severity }) => `${code} ${severity}`);
}

describe('levels', () => {
  it('a rule has its own, a setting changes it, off silences it', () => {
    expect(levels(THIRD)).toEqual(['lone-third warning']);
    expect(levels(THIRD, { 'lone-third': 'error' })).toEqual(['lone-third error']);
    expect(levels(THIRD, { 'lone-third': 'hint' })).toEqual(['lone-third hint']);
    expect(levels(THIRD, { 'lone-third': 'off' })).toEqual([]);
    expect(levels(THIRD, { 'little-room': 'off' })).toEqual(['lone-third warning']);
  });

  it('a comment for the file wins over the setting, one for the line over both', () => {
    expect(levels(`// check file: lone-third information\n${THIRD}`, { 'lone-third': 'off' })).toEqual([
      'lone-third information',
    ]);
    expect(
      levels(`// check file: lone-third off\n${THIRD} // check: lone-third error\n${THIRD}`, { 'lone-third': 'hint' }),
    ).toEqual(['lone-third error']);
  });

  it('a comment alone on its line holds for the next line with something on it, and no further', () => {
    expect(levels(`// check: lone-third off\n\n${THIRD}`)).toEqual([]);
    expect(levels(`// check: lone-third off\n${THIRD}\n${THIRD}`)).toEqual(['lone-third warning']);
    expect(levels(`${THIRD}\n// check: lone-third off`)).toEqual(['lone-third warning']);
  });

  it('one comment may carry several orders', () => {
    const text = '1/4 G6<>Bb6 [I]';
    expect(levels(text)).toEqual(['little-room warning', 'lone-third warning']);
    expect(levels(`${text} // check: lone-third off, little-room hint`)).toEqual(['little-room hint']);
  });

  it.each([
    ['what reading the passage finds', 'meter: 4/4\n1/4 D5 E5 F5 G5 | A5 B5 |', 'bar-length'],
    ['a setting that there is not', 'bowing: slow', 'unknown-setting'],
    ['what cannot be played', 'C3', 'octave-slip'],
    ['a comment that names no check', 'D5 // check: lone-thrid off', 'unknown-check'],
  ])('hold for %s', (_, text, code) => {
    expect(levels(text)).toHaveLength(1);
    expect(levels(text, { [code]: 'hint' })).toEqual([`${code} hint`]);
    expect(levels(`// check file: ${code} off\n${text}`)).toEqual([]);
  });

  it('the fixes stay with a problem whose level is changed', () => {
    const [problem] = reading(THIRD, { rules: { 'lone-third': 'error' } }).problems;
    expect(problem?.fixes.length).toBeGreaterThan(0);
  });

  it('the setting offers every code and no other', () => {
    const { configuration } = manifest.contributes;
    const properties = [configuration].flat().map((each) => each.properties as Record<string, unknown>);
    const rules = properties.flatMap((each) => ('passagework.rules' in each ? [each['passagework.rules']] : []));
    expect(rules).toEqual([expect.objectContaining({ propertyNames: { enum: CODES } })]);
  });

  it('every code is its own', () => {
    expect(new Set(CODES).size).toBe(CODES.length);
  });
});

describe('a check comment that changes nothing says so at the word to blame', () => {
  it.each([
    ['D5 // check: ^lone-thrid^ off', 'unknown-check', 'lone-third'],
    ['// check file: ^lone-thrid^ off', 'unknown-check', 'lone-third'],
    ['D5 // check: lone-third ^informaton^', 'unknown-level', 'information'],
    ['D5 // check: ^lone-third^', 'unknown-level', ' off'],
  ])('%s', (fixture, code, fix) => {
    const { text, span } = stretch(fixture);
    const { problems } = reading(text);
    expect(problems.map((problem) => ({ code: problem.code, span: problem.span }))).toEqual([{ code, span }]);
    expect(problems[0]?.fixes[0]?.edits[0]?.text).toBe(fix);
    expect(problems[0]?.message).toMatch(/changes nothing\. Write one of: /);
  });

  it.each(['D5 // check the tuning: slowly', 'D5 // to check: is this too high?', '> check: lone-third'])(
    'a remark that only mentions the word is left alone: %s',
    (text) => {
      expect(levels(text)).toEqual([]);
    },
  );
});
