import { describe, expect, test } from 'vitest';
import { parse } from '../../grammar/parse';
import { importScore } from '../../server/exchange/import-score';
import { resolve } from '../../server/passage/resolve';
import { bar, CHORD, losses, music, note, rest, score } from './score';

function direction(content: string): string {
  return `<direction><direction-type>${content}</direction-type></direction>`;
}

function attributes(content: string): string {
  return `<attributes>${content}</attributes>`;
}

describe('bow', () => {
  const slur = (type: string, number = 1) => `<slur type="${type}" number="${number}"/>`;

  test('slurs with and without a direction, over a bar line', () => {
    const first =
      note('D5', 1, { notations: slur('start'), technical: '<down-bow/>' }) + note('E5', 1, { notations: slur('stop') });
    const second = note('F#5', 1, { notations: slur('start') }) + note('G5', 1);
    const xml = score([first + second, note('A5', 2, { notations: slur('stop') }) + note('B5', 2, { technical: '<up-bow/>' })]);
    expect(music(xml)).toBe('down(1/8 D5 E5) slur(F#5 G5 | 1/4 A5) up(B5) |');
    expect(losses(xml)).toEqual([]);
  });

  test('slurs that share a note are parted there, and the second goes on after it', () => {
    const xml = score([
      note('D5', 1, { notations: slur('start', 1) }) +
        note('E5', 1, { notations: slur('stop', 1) + slur('start', 2) }) +
        note('F#5', 1) +
        note('G5', 1, { notations: slur('stop', 2) }),
    ]);
    expect(music(xml)).toBe('slur(1/8 D5 E5) slur(F#5 G5) |');
    expect(losses(xml)).toEqual(['bar 1: changed: two slurs that share notes, parted there']);
  });

  test('a slur around others is a phrase, the slurs stay', () => {
    const xml = score([
      note('D5', 1, { notations: slur('start', 1) + slur('start', 2) }) +
        note('E5', 1, { notations: slur('stop', 2) }) +
        note('F#5', 1, { notations: slur('start', 2), technical: '<up-bow/>' }) +
        note('G5', 1, { notations: slur('stop', 2) + slur('stop', 1) }),
    ]);
    expect(music(xml)).toBe('phrase(slur(1/8 D5 E5) up(F#5 G5)) |');
    expect(losses(xml)).toEqual([]);
  });

  test('a bow mark inside a slur and slurs without an end are listed', () => {
    const xml = score([
      note('D5', 1, { notations: slur('start') }) +
        note('E5', 1, { technical: '<up-bow/>', notations: slur('stop') }) +
        note('F#5', 1, { notations: slur('start') }) +
        note('G5', 1, { notations: slur('stop', 3) }),
    ]);
    expect(losses(xml)).toEqual([
      'bar 1: left out: the end of a slur that begins nowhere',
      'bar 1: left out: a slur that ends nowhere',
      'bar 1: left out: a bow mark in the middle of a slur: up',
    ]);
  });

  test('a slide into a note', () => {
    const xml = score([
      note('D5', 1, { notations: '<slide type="start"/>' }) + note('D7', 1, { notations: '<slide type="stop"/>' }),
    ]);
    expect(music(xml)).toBe('1/8 D5 slide D7 |');
  });
});

describe('time', () => {
  const time = (beats: string, type: number, more = '') =>
    `<attributes><divisions>2</divisions><time><beats>${beats}</beats><beat-type>${type}</beat-type></time>${more}</attributes>`;

  test('tuplets are exact even where their divisions are rounded', () => {
    const triplet =
      '<type>eighth</type><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>';
    const notes = ['D5', 'E5', 'F5'].map((p) => note(p, 1, { after: triplet }).replace('<duration>1', '<duration>0.67'));
    expect(bar(...notes)).toBe('1/12 D5 E5 F5 |');
  });

  test('an upbeat stays short, a bar cut by a repeat keeps its length, other short bars are filled up', () => {
    const bars = [
      `<measure number="0" implicit="yes">${time('3', 4)}${note('D5', 2)}</measure>`,
      `<measure number="1">${note('E5', 4)}</measure>`,
      `<measure number="2">${note('F5', 4)}<barline location="right"><repeat direction="backward"/></barline></measure>`,
      `<measure number="X1" implicit="yes"><barline location="left"><repeat direction="forward"/></barline>${note('G5', 2)}</measure>`,
      `<measure number="3">${note('A5', 6)}<barline location="right"><bar-style>light-heavy</bar-style></barline></measure>`,
    ];
    const { text, losses: lost } = importScore(score(bars));
    expect(text).toContain(
      'meter: 3/4\n1/4 D5 |\n1/2 E5 1/4 rest |\n1/2 F5 :| |:\nmeter: 1/4\n1/4 G5 |\nmeter: 3/4\n3/4 A5 ||\n',
    );
    expect(lost.map((l) => l.bar)).toEqual(['1', 'X1']);
    expect(resolve(parse(text)).problems).toEqual([]);
  });

  test('grace notes stay before their note, or at the end of the bar', () => {
    const grace = (p: string, type = 'eighth') => note(p, 0, { before: '<grace/>', after: `<type>${type}</type>` });
    const xml = score([
      grace('C5') + note('D5', 2) + grace('E5', '16th') + grace('F5', '16th') + note('G5', 1) + note('A5', 1) + grace('B5'),
    ]);
    expect(music(xml)).toBe('grace(1/8 C5) 1/4 D5 grace(1/16 E5 F5) 1/8 G5 A5 grace(1/8 B5) |');
    expect(losses(xml)).toEqual([]);
  });

  test('two voices become double stops, held notes tied; chords of up to four notes stay', () => {
    const voices = `${note('D5', 4, { after: '<voice>1</voice>' })}<backup><duration>4</duration></backup>${note('F4', 2, {
      after: '<voice>2</voice>',
    })}${note('G4', 2, { after: '<voice>2</voice>' })}`;
    expect(bar(voices)).toBe('1/4 D5_+F4 D5+G4 |');
    const xml = score([note('G3', 2) + note('D4', 2, { before: CHORD }) + note('B4', 2, { before: CHORD })]);
    expect(music(xml)).toBe('1/4 G3+D4+B4 |');
    expect(losses(xml)).toEqual([]);
    const five = ['C3', 'G3', 'D4', 'B4', 'G5'].map((pitch, i) => note(pitch, 2, i > 0 ? { before: CHORD } : {}));
    expect(music(score([five.join('')]))).toBe('1/4 G3+D4+B4+G5 |');
    expect(losses(score([five.join('')]))).toEqual(['bar 1: left out: notes of a chord of more than four: C3 of 5']);
  });

  test('tempo, in whatever beat it is printed, at bar lines only', () => {
    const metronome = (unit: string, bpm: string) =>
      `<direction><direction-type><metronome>${unit}<per-minute>${bpm}</per-minute></metronome></direction-type></direction>`;
    const dotted = metronome('<beat-unit>quarter</beat-unit><beat-unit-dot/>', 'c. 60');
    const xml = score([
      dotted + note('D5', 2) + metronome('<beat-unit>half</beat-unit>', '50') + note('E5', 2),
      `<sound tempo="120"/>${note('F5', 4)}`,
    ]);
    expect(music(xml)).toBe('tempo: 3/8 = 60\n1/4 D5 E5 |\ntempo: 1/4 = 120\n1/2 F5 |');
    expect(losses(xml)).toEqual([
      'bar 1: changed: a tempo written as a plain number: “c. 60” as 60',
      'bar 1: changed: a change of tempo inside the bar, moved to the next bar line: 1/2 = 50',
    ]);
  });

  test('a grouped meter is summed, a free one has no meter line', () => {
    expect(music(score([time('3+2', 8) + note('D5', 5)]))).toBe('meter: 5/8\n5/8 D5 |');
    expect(music(score([`<attributes><time><senza-misura/></time></attributes>${note('D5', 3)}`]))).toBe('3/8 D5 |');
  });
});

describe('the rest of a score', () => {
  test('key, title, dynamics, words and transposition', () => {
    const attributes =
      '<attributes><divisions>2</divisions><key><fifths>-1</fifths><mode>minor</mode></key><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose></attributes>';
    const dynamic = (level: string) => `<direction><direction-type><dynamics><${level}/></dynamics></direction-type></direction>`;
    const words = '<direction><direction-type><words>Full bows // at\n the tip</words></direction-type></direction>';
    const head = '<work><work-title>Tide tables</work-title></work><movement-title>Ebb &amp; flow</movement-title>';
    const {
      text,
      title,
      losses: lost,
    } = importScore(score([attributes + words + dynamic('ppp') + note('E5', 1) + dynamic('sfz') + note('F#5', 1)], { head }));
    expect(title).toBe('Ebb & flow');
    expect(text).toBe(
      'title: Tide tables\ninstrument: violin\n\npassage: Ebb & flow\nkey: D minor\n> Full bows / at the tip\nppp 1/8 D5 sfz E5 |\n',
    );
    expect(lost).toEqual([]);
  });

  test.each([
    [
      'a relation of tempos',
      direction('<metronome><beat-unit>quarter</beat-unit><beat-unit>half</beat-unit></metronome>'),
      'left out: a relation between two tempos',
    ],
    ['a tempo nobody plays', '<sound tempo="9000"/>', 'left out: a tempo too slow or too fast to play: “9000”'],
    [
      'half a retuning',
      direction(
        '<scordatura><accord string="4"><tuning-step>A</tuning-step><tuning-octave>3</tuning-octave></accord></scordatura>',
      ),
      'left out: a retuning that does not name all four strings',
    ],
    [
      'a mode',
      attributes('<key><fifths>0</fifths><mode>dorian</mode></key>'),
      'changed: a church mode, written as the major key of its signature: dorian as C major',
    ],
    [
      'a key of its own',
      attributes('<key><key-step>F</key-step><key-alter>1</key-alter></key>'),
      'left out: a key signature that is no major or minor key',
    ],
    [
      'a meter too long',
      attributes('<time><beats>99</beats><beat-type>4</beat-type></time>'),
      'left out: a meter that can’t be read',
    ],
    [
      'a transposition by a broken number',
      attributes('<transpose><chromatic>0.5</chromatic></transpose>'),
      'left out: a transposition that can’t be read',
    ],
    [
      'slashes instead of notes',
      attributes('<measure-style><slash type="start"/></measure-style>'),
      'left out: the mark “slash”',
    ],
  ])('%s is listed', (_, element, loss) => {
    expect(losses(score([element + note('D5', 2)]))).toEqual([`bar 1: ${loss}`]);
  });

  test('rehearsal marks, and an octave line changes nothing: the pitches in the file are those that sound', () => {
    const marks = direction('<rehearsal>B</rehearsal>') + direction('<octave-shift type="down" size="8"/>');
    expect(music(score([marks + note('D7', 2)]))).toBe('mark: B\n1/4 D7 |');
    expect(losses(score([marks + note('D7', 2)]))).toEqual([]);
  });

  test('a retuning is carried', () => {
    const accord = (string: number, step: string, octave: number) =>
      `<accord string="${string}"><tuning-step>${step}</tuning-step><tuning-octave>${octave}</tuning-octave></accord>`;
    const mark = `<direction><direction-type><scordatura>${accord(1, 'E', 5)}${accord(2, 'A', 4)}${accord(3, 'E', 4)}${accord(4, 'A', 3)}</scordatura></direction-type></direction>`;
    const { text, losses: lost } = importScore(score([mark + note('A3', 2, { technical: '<fingering>0</fingering>' })]));
    expect(text).toContain('tuning: A3 E4 A4 E5');
    expect(text).toContain('A3 [0]');
    expect(lost).toEqual([]);
  });

  test('whatever a passage has no words for is listed with its bar', () => {
    const lyric = '<lyric><text>sea</text></lyric>';
    const xml = score([
      note('D5', 2, { notations: '<ornaments><schleifer/></ornaments>', technical: '<fingernails/>' }) +
        direction('<dynamics><pppp/><n/></dynamics>') +
        rest(2),
      `<harmony/>${note('E5', 2).replace('</note>', `${lyric}</note>`)}${direction('<damp/>')}`,
    ]);
    expect(music(xml)).toBe('1/4 D5 ppp rest |\n1/4 E5 |');
    expect(losses(xml)).toEqual([
      'bar 1: left out: the mark “schleifer”',
      'bar 1: left out: the mark “fingernails”',
      'bar 1: changed: a dynamic beyond ppp or fff: pppp as ppp',
      'bar 1: left out: a dynamic: n',
      'bar 2: left out: a chord symbol',
      'bar 2: left out: the words sung to it',
      'bar 2: left out: the mark “damp”',
    ]);
  });

  test('ties that lead nowhere, let a note ring, and note heads of other shapes are listed', () => {
    const open = note('D5', 2, { after: '<tie type="start"/>' }) + note('E5', 2, { notations: '<tied type="let-ring"/>' });
    const xml = score([open + note('F5', 2, { after: '<notehead>cross</notehead>' })]);
    expect(music(xml)).toBe('1/4 D5 E5 F5 |');
    expect(losses(xml)).toEqual([
      'bar 1: left out: a tie that lets the note ring',
      'bar 1: changed: a note head of another shape, read as a plain one: cross',
      'bar 1: left out: a tie that leads to no note of the same pitch: D5',
    ]);
  });

  test('pitches between the semitones and without a pitch, and cue notes, are listed', () => {
    const quarterTone = note('D5', 1).replace('</step>', '</step><alter>0.5</alter>');
    const drum = '<note><unpitched/><duration>1</duration></note>';
    const cue = note('A5', 1, { before: '<cue/>' });
    const xml = score([quarterTone + drum + cue + note('E5', 1)]);
    expect(music(xml)).toBe('1/8 D#5 rest rest E5 |');
    expect(losses(xml)).toHaveLength(3);
  });
});
