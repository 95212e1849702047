import { describe, expect, it } from 'vitest';
import { fixed, places, problemsOf } from './reading';

/** Fixture with the place between carets, the code reported there, and the text after the first fix where there is one. */
type Case = readonly [name: string, fixture: string, code: string, fix?: string];

function check(cases: readonly Case[]): void {
  for (const [name, fixture, code, fix] of cases) {
    it(name, () => {
      const { found, expected, text } = problemsOf(fixture);
      expect(found.map((problem) => problem.code)).toEqual([code]);
      expect(places(found)).toEqual(expected);
      expect(found[0]?.message).toMatch(/^[A-Z“].*\.$/);
      if (fix === undefined) return;
      const mended = fixed(text, found[0]);
      expect(mended).toBe(fix);
      expect(problemsOf(mended).found).toEqual([]);
    });
  }
}

describe('a setting in the wrong place', () => {
  check([
    ['for the whole passage, after a note', 'D5\n^hand^: small\nE5', 'setting-place', 'hand: small\nD5\nE5'],
    ['with the line breaks of another system', 'D5\r\n^hand^: small\r\nE5', 'setting-place', 'hand: small\r\nD5\r\nE5'],
    ['at the end of the file', 'passage: Pier\nD5\n^hand^: small', 'setting-place', 'passage: Pier\nhand: small\nD5'],
    ['meter inside a bar', 'meter: 4/4\n1/4 D5 E5\n^meter^: 3/4\nF5 |', 'meter-inside-bar'],
    ['twice', '^tempo^: 1/4 = 60\ntempo: 1/4 = 70\nD5', 'setting-twice', 'tempo: 1/4 = 70\nD5'],
    [
      'twice, with a comment',
      '^tempo^: 1/4 = 60 // slower\ntempo: 1/4 = 70\nD5',
      'setting-twice',
      '// slower\ntempo: 1/4 = 70\nD5',
    ],
  ]);
});

describe('bars against their meter', () => {
  check([
    ['uncounted', '1/4 C5 | ^rest 4 bars^ | C5 |', 'rest-bars'],
    ['after a note', 'meter: 2/4\n1/2 ^C5 ^rest 2 bars |', 'bar-length', 'meter: 2/4\n1/2 C5 | rest 2 bars |'],
    ['short', 'meter: 4/4\n1/4 C5 D5 E5 F5 | ^C5 D5 E5 |^', 'bar-length', 'meter: 4/4\n1/4 C5 D5 E5 F5 | C5 D5 E5 rest |'],
    [
      'short by another value',
      'meter: 3/4\n1/4 C5 D5 E5 | ^C5 1/8 D5 |^ 1/4 C5',
      'bar-length',
      'meter: 3/4\n1/4 C5 D5 E5 | C5 1/8 D5 3/8 rest 1/8 | 1/4 C5',
    ],
    ['long by part of a bar', 'meter: 2/4\n1/4 ^C5 D5 E5 |^', 'bar-length', 'meter: 2/4\n1/4 C5 D5 | E5 rest |'],
    ['long by two bars', 'meter: 2/4\n1/4 ^C5 D5 E5 F5 G5 A5 |^', 'bar-length', 'meter: 2/4\n1/4 C5 D5 | E5 F5 | G5 A5 |'],
    ['long where no note begins a bar', 'meter: 2/4\n1/4 ^C5 1/2 D5 1/4 E5 |^', 'bar-length'],
    ['long where a note begins the next bar', 'meter: 2/4\n1/4 ^C5 D5 E5 F5 |^', 'bar-length', 'meter: 2/4\n1/4 C5 D5 | E5 F5 |'],
    ['never closed', 'meter: 2/4\n1/4 ^C5 D5 E5^', 'bar-length', 'meter: 2/4\n1/4 C5 D5 | E5'],
    [
      'begun on an earlier line',
      'meter: 3/4\n1/4 C5 D5 E5 | C5\n^D5 |^',
      'bar-length',
      'meter: 3/4\n1/4 C5 D5 E5 | C5\nD5 rest |',
    ],
  ]);

  it.each([
    ['an upbeat', 'meter: 4/4\n1/4 C5 | D5 E5 F5 G5 |'],
    ['the last bar gives back what the upbeat took', 'meter: 4/4\n1/4 C5 | D5 E5 F5 G5 | A5 B5 C6 ||'],
    ['and so before a repeat', 'meter: 4/4\n1/4 C5 |: D5 E5 F5 G5 | A5 B5 C6 :|'],
    ['a bar still being written', 'meter: 4/4\n1/4 C5 D5 E5 F5 | G5'],
    ['triplets, exactly', 'meter: 2/4\n1/12 C5 D5 E5 F5 G5 A5 | C5 D5 E5 F5 G5 A5 |'],
    ['no meter, no bar to be wrong', '1/4 C5 | D5 E5 | F5 G5 A5 |'],
    ['a meter changed at the bar line', 'meter: 2/4\n1/4 C5 D5 |\nmeter: 3/4\nC5 D5 E5 |'],
    ['a bar line at the end of one line and the head of the next', 'meter: 2/4\n1/4 C5 D5 |\n| C5 D5 ||'],
  ])('nothing wrong: %s', (_, text) => {
    expect(problemsOf(text).found).toEqual([]);
  });

  it('an unreadable note costs its own sound, not its bar', () => {
    expect(problemsOf('meter: 2/4\n1/4 C5 D5 | C5x D5 |').found).toEqual([]);
    expect(problemsOf('meter: 2/4\n1/4 C5 D5 | ^gull^ D5 |').found.map(({ code }) => code)).toEqual(['unknown-motif']);
    expect(problemsOf('meter: 2/4\n1/4 C5 D5 | C5 1/ D5 |').found).toEqual([]);
  });
});

describe('ties', () => {
  check([
    ['into another pitch', '1/4 D5^_^ E5', 'tie-broken', '1/4 D5 E5'],
    ['into a rest', '1/4 D5^_^ rest D5', 'tie-broken', '1/4 D5 rest D5'],
    ['into the end', '1/4 D5^_^', 'tie-broken', '1/4 D5'],
    ['over the line', '1/4 D5^_^\n// spray\nE5', 'tie-broken', '1/4 D5\n// spray\nE5'],
    ['into a rest on the next line', '1/4 D5^_^\nrest D5', 'tie-broken', '1/4 D5\nrest D5'],
    ['one note of two', '1/4 D5_+A5^_^ D5+B5', 'tie-broken', '1/4 D5_+A5 D5+B5'],
    ['a stopped note into a harmonic', '1/4 D6^_^ D6o', 'tie-broken', '1/4 D6 D6o'],
    ['into the next passage', '1/4 D5^_^\npassage: Quay\nD5', 'tie-broken', '1/4 D5\npassage: Quay\nD5'],
  ]);

  it.each(['D6o_ D6o', 'D6o_ D6', 'F#5_ Gb5', 'E5<>A5_ E7o', 'D5_ | D5_\n| D5', 'D5_+A5_ A5+D5', 'D5+A5_ A5'])(
    'hold: %s',
    (text) => {
      expect(problemsOf(text).found).toEqual([]);
    },
  );

  it('a tie into an unreadable note waits until that note can be read', () => {
    expect(problemsOf('D5_ D5x').found).toEqual([]);
  });
});

describe('printed forms', () => {
  check([
    ['another octave claimed', 'E5<>A5 ^= E6^', 'sounding-mismatch', 'E5<>A5 = E7'],
    ['a fifth claimed as a fourth', 'A4<>E5 ^= A6^', 'sounding-mismatch', 'A4<>E5 = E6'],
    ['a diamond', '<>A4 ^= C7^', 'sounding-mismatch'],
    ['a circle', 'D6o ^= E6^', 'sounding-mismatch', 'D6o = D6'],
    ['no such interval', '^E5<>G#6^', 'unknown-touch'],
    ['the touch below the stop', '^A5<>E5^', 'unknown-touch'],
    ['a diamond where no string has a node', '^<>G#3^', 'unknown-touch'],
  ]);
});

describe('hints that contradict', () => {
  check([
    ['open with a finger', 'A4 [open ^3^]', 'hint-contradiction', 'A4 [open]'],
    ['an open string and its finger 0 agree, a stopped note not', 'A4 [stopped ^0^]', 'hint-contradiction', 'A4 [stopped]'],
    ['two fingers and natural', 'E7o [1-4 ^natural^]', 'hint-contradiction', 'E7o [1-4]'],
    ['a circle and stopped', 'E6o [^stopped^]', 'hint-contradiction', 'E6o'],
    ['a lone diamond and artificial', '<>A4 [^artificial^]', 'hint-contradiction', '<>A4'],
    ['printed fourth, hinted fifth', 'E5<>A5 [^fifth^]', 'hint-contradiction', 'E5<>A5'],
    ['printed fourth, touched at 1/3', 'E5<>A5 [^at 1/3^]', 'hint-contradiction', 'E5<>A5'],
    ['fifth, touched at 1/4', 'E7o [fifth ^at 1/4^]', 'hint-contradiction', 'E7o [fifth]'],
    ['the lower finger touching', 'E5<>A5 [^4-1^]', 'hint-contradiction', 'E5<>A5'],
    ['the first of two', 'E6o [^stopped^ III]', 'hint-contradiction', 'E6o [III]'],
    ['after a tie and a claim', 'E5<>A5 = E7_ [^natural^] E7', 'hint-contradiction', 'E5<>A5 = E7_ E7'],
    ['thumb on the violin', 'E5 [^T^]', 'hint-contradiction', 'E5'],
  ]);

  it.each([
    'E5<>A5 [II 1-4 fourth at 1/4 3rd]',
    'E6o [III natural 4 at 1/3]',
    'A4 [open 0 II]',
    'instrument: cello\nE5 [T]',
    'instrument: cello\nE4<>A4 [T-3]',
  ])('nothing wrong: %s', (text) => {
    expect(problemsOf(text).found).toEqual([]);
  });
});
