import { describe, expect, it } from 'vitest';
import { RULES } from '../../server/rules/table';
import { check } from './check';

/** Fixtures by code: the places between carets, what the message of the first must say, and how many fixes it must have. */
const FIXTURES: readonly (readonly [code: string, fixture: string, says: readonly (string | RegExp)[], fixes: number])[] = [
  // A3 on the G string leaves 328 / 2^(2/12) = 292.2 mm, a third of which is 97.4; reaches as in the model of the hand.
  ['impossible-stretch', 'A3<>E4 [IV ^1-2^]', ['fingers 1 and 2', '97 mm', '(medium)', '55 mm', "Don't force it"], 2],
  [
    'impossible-stretch',
    'hand: small\nD5 ^A3<>E4^ [IV] E5',
    ['fingers 1 and 4', '97 mm', '(small)', '95 mm', '`hand: 1-4 …`'],
    0,
  ],
  [
    'unmet-hint',
    '1/4 D6o [III ^natural^ at 1/3]',
    ['how the note is made and the point of division rule out every one', 'changing either solves it'],
    2,
  ],
  ['unmet-hint', 'C5 [^open^]', ['how the note is made rules out'], 2],
  // A hint of a group, told at the note that can't have it; the fix gives that note hints of its own.
  ['unmet-hint', '(^G3^ F5)[I]', ['No way of playing this note fits its hints', 'the string rules out every one'], 1],
  ['unmet-hint', '1/4 F#6o [^III^ third]', ['the string and the interval between the fingers rule out'], 2],
  // Pinned where the finger's own width closes the node: the room is said in mm.
  ['unmet-hint', 'A7o [^IV^ minor-third]', ['113 mm of the IV string', 'no room at all', 'partial 6'], 2],
  ['out-of-range', '^F3<>Bb3^', ['No string of the violin can play this printed form'], 0],
  ['octave-slip', 'D5 ^C3^ E5', ["C3 can't be played on this violin; C4 can", 'Middle C is C4'], 1],
  ['octave-slip', '^D#4o^', ["D♯4 can't sound as a harmonic", 'D♯5 can'], 2],
  ['octave-slip', 'G3+^D4o^', ['D5 can'], 2],
  // The hints were for the note that it was: the fix takes them along.
  ['octave-slip', '^Eb4o^ [third 1-3] D5', ["E♭4 can't sound as a harmonic"], 2],
  // A position that the fix leaves goes as well.
  ['unmet-hint', 'B4 [^II^ 7th]', ['the string and the position'], 1],
  ['no-harmonic', '^A6<>C7^ [I]', ['this harmonic', '124 mm of the I string', 'no room at all', '7 mm wide'], 2],
  ['same-string', '^G#3+A3^', ['only one at a time'], 0],
  ['same-string', 'D4 [III]+E4 [^III^]', ['only one at a time'], 2],
  ['far-strings', 'G3 [IV]+E5 [^I^]', ['not neighbours'], 2],
  ['crossed-fingers', '^D4<>D5+Ab4<>Ab5^', ['two places'], 1],
  ['broken-hold', '1/4 D4 [III]_ ^D4+E4 [III]^', ['remove the `_`'], 1],
  ['little-room', '1/4 ^G6<>Bb6^ [I]', [/only 0\.\d mm on either side/, 'already in place'], 1],
  ['lone-third', '1/4 ^F#6o^ [IV third] D5', ['A third harmonic on its own', /only \d\.\d mm on either side/, 'double stops'], 1],
  ['lone-third', '1/4 ^C#6<>E6^ = G#8 [I]', ['A minor third harmonic on its own'], 1],
  [
    'tempo-risk',
    'tempo: 1/4 = 90\n1/16 ^C5<>F5 [II 1-4]^ E5',
    [
      /comes out clean 6 times in 10/,
      'the note lasts 0.17 s, and a fourth harmonic here takes about 0.09 s to speak',
      /At 1\/4 = 8\d it would/,
    ],
    0,
  ],
  [
    'unsure-run',
    'level: student\ntempo: 1/4 = 100\n1/16 A3+A4 B3+B4 C#4+C#5 D4+D5 E4+E5 F#4+F#5 G#4+G#5 A4+A5 B4+B5 A4+A5 ^G#4+G#5^ F#4+F#5',
    ['No note here is very risky by itself', 'The least certain: ', 'in bar 1 ('],
    0,
  ],
  [
    'far-shift',
    'tempo: 1/4 = 160\n1/16 B4 [II 1] ^B6 [I 4]^',
    [/The hand must move \d+ mm in 0\.05 s/, 'open string, a rest'],
    0,
  ],
  ['off-pitch', '1/4 ^F6o^ [IV natural]', [/sounds 2\d cents below F6/, '7th partial on IV'], 1],
  [
    'beating',
    '1/2 ^F6o [IV natural]+A5o [III natural]^',
    ['40 cents narrow of a pure 8:5', /beat \d+ times a second/, 'No finger can correct'],
    1,
  ],
  [
    'long-stretch',
    'tempo: 1/4 = 60\n1/2 ^A3<>E4 [IV 1-4] B3<>F#4 [IV 1-4] A3<>E4 [IV 1-4] B3<>F#4 [IV 1-4]^',
    ['4 stretches', '8 s without a rest', 'Pain means stop', 'a teacher or a clinician'],
    0,
  ],
  ['soft-harmonic', 'mf F#6o [III at 1/5] ff ^F#6o^ [III at 1/5]', ['partial 5', "can't be forced to ff"], 1],
  [
    'safer-harmonic',
    'hand: small\ntempo: 1/4 = 84\nharmonics: all\n1/16 E7 ^D7^',
    ['a fifth harmonic for D7', '4.6 mm instead of 3.6 mm', 'The passage stays about as easy.'],
    1,
  ],
  // Touched at 1/3 of the D string, 109.3 mm from the nut, and stopped on A4, 109.1 mm.
  [
    'same-spot',
    '1/4 A5o [III at 1/3 3] ^A4^ [III 3] ^A5o^ [III at 1/3 3]',
    ['stopped now instead of touched', /about \d\.\d mm toward the nut/],
    0,
  ],
];

describe('every rule reports at its place, says what matters, and its fixes fix', () => {
  it.each(FIXTURES.map(([code, fixture, says, fixes]) => ({ code, fixture, says, fixes })))(
    '$code: $fixture',
    ({ code, fixture, says, fixes }) => {
      const [first] = check(code, fixture).found;
      for (const words of says) expect(first?.message).toMatch(words instanceof RegExp ? words : new RegExp(literally(words)));
      expect(first?.fixes.length).toBeGreaterThanOrEqual(fixes);
      expect(first?.severity).toBe(RULES.find((rule) => rule.code === code)?.severity);
    },
  );

  it('a spot shared by one note of a double stop is told at that note', () => {
    check('same-spot', '1/2 A5o [III natural at 1/3 4]+E5 [II 3] ^A4^ [III 4]+E5 [II 3]');
  });

  it('no rule is without a fixture', () => {
    const shown = new Set(FIXTURES.map(([code]) => code));
    expect(RULES.map(({ code }) => code).filter((code) => !shown.has(code))).toEqual([]);
  });
});

function literally(words: string): string {
  return words.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
}

describe('one event is not told twice for one cause', () => {
  it('a shift that is too far is not also a risk at tempo', () => {
    const { snapshot } = check('far-shift', 'tempo: 1/4 = 160\n1/16 B4 [II 1] ^B6 [I 4]^');
    expect(snapshot.problems.map(({ code }) => code)).toEqual(['far-shift']);
  });

  it('notes that no fingering can play do not silence the others', () => {
    check('lone-third', '1/4 C3 ^F#6o^ [IV third] A6<>C7 [I]');
  });
});

describe('the notes of a motif are told once where it is used, and each in the motif', () => {
  const MOTIF = 'motif gull = 1/4 F#6o [third] G6o [third] D5\n';

  it('once for each use, with every note of the motif as a related place', () => {
    const { text, found } = check('lone-third', `${MOTIF}^gull^ D5 ^gull up M2^`);
    for (const { related } of found)
      expect(related?.map(({ span }) => text.slice(span.start, span.end))).toEqual(['F#6o [third]', 'G6o [third]']);
  });

  it('fixes are left to the motif: a use has no notes to write hints behind', () => {
    expect(check('lone-third', `${MOTIF}^gull^`).found[0]?.fixes).toEqual([]);
  });
});

describe('double stops', () => {
  it.each([
    'E6o [II]+C7o [III minor-third]',
    'D6o+F#6o',
    'E6o+G6o',
    'C6o+E6o',
    'A4<>D5 [III]+E5<>A5 [II]',
    'tuning: equal\n1/2 E6o [II natural]+D6o [III natural]',
  ])('beats that the ear puts right, and dissonances, are not told: %s', (text) => {
    check('beating', text);
  });

  it('a finger that must lean farther than the ear leads it is told how far, mm', () => {
    // Partial 7 of the G string is 31 cents flat (derived), 35 with the string's pure fifths: more than a finger leans by ear.
    const { found } = check('beating', '1/2 ^F6o [IV natural at 1/7]+A4 [III 4]^');
    expect(found[0]?.message).toMatch(/Roll the stopping finger by \d\.\d mm/);
  });
});
