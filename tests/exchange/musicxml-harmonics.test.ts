import { describe, expect, test } from 'vitest';
import { BRACKETS, bar, CHORD, DIAMOND, losses, music, note, score } from './score';

/**
 * Names of the base, touching and sounding pitch: W3C MusicXML 4.0, element `harmonic`. The circle over a sounding pitch, the lone
 * diamond, and the diamond over a stopped note: common practice, no source.
 */
describe('harmonics, in all the ways that scores write them', () => {
  const circle = '<harmonic/>';
  const artificial = (name: string) => `<harmonic><artificial/><${name}-pitch/></harmonic>`;

  test.each([
    ['a circle over the sounding pitch', note('D6', 2, { technical: circle }), '1/4 D6o |'],
    [
      'a circle that a program calls natural by default',
      note('D6', 2, { technical: '<harmonic><natural/></harmonic>' }),
      '1/4 D6o |',
    ],
    [
      'a natural harmonic at its sounding pitch',
      note('D6', 2, { technical: '<harmonic><natural/><sounding-pitch/></harmonic>' }),
      '1/4 D6o [natural] |',
    ],
    ['a SMuFL circle', note('D6', 2, { technical: '<other-technical smufl="stringsHarmonic"/>' }), '1/4 D6o |'],
    ['a lone diamond', note('A4', 2, { after: DIAMOND }), '1/4 <>A4 |'],
    ['a SMuFL diamond', note('A4', 2, { after: '<notehead smufl="noteheadDiamondWhite">other</notehead>' }), '1/4 <>A4 |'],
    [
      'a lone diamond with a harmonic mark',
      note('A4', 2, { after: DIAMOND, technical: '<harmonic><natural/></harmonic>' }),
      '1/4 <>A4 |',
    ],
    [
      'a touched pitch by name only',
      note('A4', 2, { technical: '<harmonic><natural/><touching-pitch/></harmonic>' }),
      '1/4 <>A4 |',
    ],
    ['base and diamond', note('E5', 2) + note('A5', 2, { before: CHORD, after: DIAMOND }), '1/4 E5<>A5 |'],
    ['diamond first', note('A5', 2, { after: DIAMOND }) + note('E5', 2, { before: CHORD }), '1/4 E5<>A5 |'],
    [
      'base, diamond, and the sounding pitch in brackets',
      note('E5', 2) + note('A5', 2, { before: CHORD, after: DIAMOND }) + note('E7', 2, { before: CHORD, after: BRACKETS }),
      '1/4 E5<>A5 = E7 |',
    ],
    [
      'base, diamond, and the sounding pitch in small print',
      note('E5', 2) +
        note('A5', 2, { before: CHORD, after: DIAMOND }) +
        note('E7', 2, { before: CHORD, after: '<type size="cue">quarter</type>' }),
      '1/4 E5<>A5 = E7 |',
    ],
    [
      'base, touching and sounding pitch by name only',
      note('E5', 2, { technical: artificial('base') }) +
        note('B5', 2, { before: CHORD, technical: artificial('touching') }) +
        note('B6', 2, { before: CHORD, technical: artificial('sounding') }),
      '1/4 E5<>B5 = B6 |',
    ],
    [
      'base and sounding pitch: the touched one follows',
      note('E5', 2, { technical: artificial('base') }) + note('G#7', 2, { before: CHORD, technical: artificial('sounding') }),
      '1/4 E5<>G#5 = G#7 |',
    ],
    [
      'touching and sounding pitch: the stopped one follows',
      note('A5', 2, { after: DIAMOND, technical: artificial('touching') }) +
        note('E7', 2, { before: CHORD, technical: artificial('sounding') }),
      '1/4 E5<>A5 = E7 |',
    ],
    [
      'a natural harmonic over its open string',
      note('D4', 2, { technical: '<harmonic><natural/><base-pitch/></harmonic>' }) +
        note('A4', 2, { before: CHORD, after: DIAMOND, technical: '<harmonic><natural/><touching-pitch/></harmonic>' }),
      '1/4 <>A4 |',
    ],
    [
      'a diamond with its sounding pitch in brackets',
      note('A4', 2, { after: DIAMOND }) + note('A5', 2, { before: CHORD, after: BRACKETS }),
      '1/4 <>A4 = A5 |',
    ],
    [
      'two artificial harmonics at once, sorted by pitch',
      note('E5', 2) +
        note('A5', 2, { before: CHORD, after: DIAMOND }) +
        note('B5', 2, { before: CHORD }) +
        note('E6', 2, { before: CHORD, after: DIAMOND }),
      '1/4 E5<>A5+B5<>E6 |',
    ],
    [
      'base and diamond in two voices',
      `${note('E5', 2, { after: '<voice>1</voice>' })}<backup><duration>2</duration></backup>${note('A5', 2, { after: `<voice>2</voice>${DIAMOND}` })}`,
      '1/4 E5<>A5 |',
    ],
    [
      'base, diamond, and the sounding pitch as a plain head',
      note('E5', 2) + note('A5', 2, { before: CHORD, after: DIAMOND }) + note('E7', 2, { before: CHORD }),
      '1/4 E5<>A5 = E7 |',
    ],
    [
      'the same with the circle over the sounding pitch',
      note('E5', 2) + note('B5', 2, { before: CHORD, after: DIAMOND }) + note('B6', 2, { before: CHORD, technical: circle }),
      '1/4 E5<>B5 = B6 |',
    ],
    [
      'a diamond with the pitch that it sounds on an open string as a plain head',
      note('G4', 2, { after: DIAMOND }) + note('D6', 2, { before: CHORD }),
      '1/4 <>G4 = D6 |',
    ],
    [
      'a diamond with a plain head that it does not sound on any string: a double stop',
      note('G4', 2, { after: DIAMOND }) + note('E5', 2, { before: CHORD }),
      '1/4 <>G4+E5 |',
    ],
    [
      'two harmonics with both sounding pitches as plain heads',
      note('E5', 2) +
        note('A5', 2, { before: CHORD, after: DIAMOND }) +
        note('B5', 2, { before: CHORD }) +
        note('E6', 2, { before: CHORD, after: DIAMOND }) +
        note('E7', 2, { before: CHORD }) +
        note('B7', 2, { before: CHORD }),
      '1/4 E5<>A5 = E7+B5<>E6 = B7 |',
    ],
    ['a stopped note beside a lone diamond', note('C5', 2) + note('D5', 2, { before: CHORD, after: DIAMOND }), '1/4 C5+<>D5 |'],
  ])('%s', (_, notes, text) => {
    expect(bar(notes)).toBe(text);
  });

  test('a circle is not repeated on a note held over: it stays the same harmonic', () => {
    const xml = score([
      note('D6', 2, { after: '<tie type="start"/>', technical: circle }) + note('D6', 2, { after: '<tie type="stop"/>' }),
    ]);
    expect(music(xml)).toBe('1/4 D6o_ D6o |');
  });

  test('a harmonic that shows too little is guessed, and listed', () => {
    const xml = score([note('A5', 2, { technical: artificial('touching') }) + note('E5', 2, { technical: artificial('base') })]);
    expect(music(xml)).toBe('1/4 E5<>A5 E5<>A5 |');
    expect(losses(xml)).toEqual([
      'bar 1: changed: an artificial harmonic that shows only its touched note, taken as a fourth: A5 on E5',
      'bar 1: changed: an artificial harmonic that shows only its stopped note, taken as a fourth: E5, touched at A5',
    ]);
  });

  test.each([
    [
      'only the open string of a natural harmonic',
      note('D4', 2, { technical: '<harmonic><natural/><base-pitch/></harmonic>' }),
      '1/4 D4 |',
      'changed: a natural harmonic that shows only its open string, written as that open string: D4',
    ],
    [
      'a stopped note and a pitch that no touch on it sounds',
      note('E5', 2, { technical: artificial('base') }) +
        note('F7', 2, { before: CHORD, after: BRACKETS, technical: artificial('sounding') }),
      '1/4 E5<>A5 = F7 |',
      'changed: an artificial harmonic that can’t sound the pitch beside it, taken as a fourth: F7 on E5',
    ],
    [
      'a touching finger without a stopping one',
      note('E5', 2) + note('A5', 2, { before: CHORD, after: DIAMOND, technical: '<fingering>4</fingering>' }),
      '1/4 E5<>A5 |',
      'left out: the touching finger of an artificial harmonic whose stopping finger is not named: 4',
    ],
    [
      'a 0 over a circle',
      note('D6', 2, { technical: `${circle}<fingering>0</fingering>` }),
      '1/4 D6o |',
      'changed: a 0 over a harmonic, read as the harmonic mark',
    ],
  ])('what does not fit together is read as well as it can be, and listed: %s', (_, notes, text, loss) => {
    expect(bar(notes)).toBe(text);
    expect(losses(score([notes]))).toEqual([`bar 1: ${loss}`]);
  });

  test('a natural harmonic over its open string, with what sounds', () => {
    const natural = (name: string) => `<harmonic><natural/><${name}-pitch/></harmonic>`;
    const base = note('D4', 2, { technical: `${natural('base')}<string>3</string>` });
    expect(bar(base + note('D6', 2, { before: CHORD, technical: natural('sounding') }))).toBe('1/4 D6o [III natural] |');
  });

  test('the 0 of older editions over a pitch that no open string has is a harmonic', () => {
    expect(bar(note('A5', 2, { technical: '<fingering>0</fingering>' }))).toBe('1/4 A5o |');
    expect(bar(note('A4', 2, { technical: '<fingering>0</fingering>' }))).toBe('1/4 A4 [0] |');
    expect(bar(note('A4', 2, { technical: '<open-string/>' }))).toBe('1/4 A4 [open] |');
  });
});

describe('strings and fingers', () => {
  test.each([
    ['string and finger', note('F#5', 2, { technical: '<fingering>2</fingering><string>1</string>' }), '1/4 F#5 [I 2] |'],
    [
      'stopping and touching finger at their own notes',
      note('E5', 2, { technical: '<fingering>1</fingering><string>2</string>' }) +
        note('A5', 2, { before: CHORD, after: DIAMOND, technical: '<fingering>4</fingering>' }),
      '1/4 E5<>A5 [II 1-4] |',
    ],
    [
      'both fingers at the stopped note',
      note('E5', 2, { technical: '<fingering>1</fingering><fingering>4</fingering>' }) +
        note('A5', 2, { before: CHORD, after: DIAMOND }),
      '1/4 E5<>A5 [1-4] |',
    ],
    ['both fingers in one text', note('E5', 2, { technical: '<fingering>1–4</fingering><harmonic/>' }), '1/4 E5o [1-4] |'],
    ['the thumb', note('A4', 2, { technical: '<thumb-position/>' }), '1/4 A4 [T] |'],
  ])('%s', (_, notes, text) => expect(bar(notes)).toBe(text));

  test('substitutions, a fifth string and surplus fingers are listed', () => {
    const technical = '<fingering>1</fingering><fingering substitution="yes">2</fingering><string>5</string>';
    const xml = score([
      note('F#5', 2, { technical }) + note('G5', 2, { technical: '<fingering>1</fingering><fingering>2</fingering>' }),
    ]);
    expect(music(xml)).toBe('1/4 F#5 [1] G5 [1] |');
    expect(losses(xml)).toEqual([
      'bar 1: left out: a substitution or alternative fingering: “2”',
      'bar 1: left out: a string number, as the strings are I to IV: “5”',
      'bar 1: left out: more fingers than the note has: 2',
    ]);
  });
});
