import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from '../../grammar/parse';
import { importScore } from '../../server/exchange/import-score';
import { writeMusicXml } from '../../server/exchange/musicxml/write';
import { pitchName } from '../../server/music/pitch';
import { resolve } from '../../server/passage/resolve';
import { passageOf } from './passages';
import { note, rest, score } from './score';

const BAR = 8;
const PITCHES = ['G3', 'D4', 'A4', 'Bb4', 'F#5', 'E5'] as const;
interface Tone {
  readonly pitch: string | undefined;
  readonly eighths: number;
}
const tone: fc.Arbitrary<Tone> = fc.record({
  pitch: fc.constantFrom(...PITCHES, undefined),
  eighths: fc.integer({ min: 1, max: 5 }),
});
/** One voice of one bar: tones cut off at the bar line. */
const voice = fc.array(tone, { minLength: 1, maxLength: 8 }).map((tones) => {
  let left = BAR;
  return tones.flatMap(({ pitch, eighths }) => {
    const fits = Math.min(eighths, left);
    left -= fits;
    return fits > 0 ? [{ pitch, eighths: fits }] : [];
  });
});
const bars = fc.array(fc.tuple(voice, voice), { minLength: 1, maxLength: 4 });

function written(tones: readonly Tone[], number: number): string {
  const mark = `<voice>${number}</voice>`;
  return tones.map(({ pitch, eighths }) => (pitch ? note(pitch, eighths, { after: mark }) : rest(eighths, mark))).join('');
}

function length(tones: readonly Tone[]): number {
  return tones.reduce((sum, { eighths }) => sum + eighths, 0);
}

/** How long every pitch sounds in all, in eighths. */
function sums(tones: readonly Tone[]): Record<string, number> {
  const found: Record<string, number> = {};
  for (const { pitch, eighths } of tones) if (pitch) found[pitch] = (found[pitch] ?? 0) + eighths;
  return found;
}

test('two voices become double stops in which every pitch sounds as long as before', () => {
  fc.assert(
    fc.property(bars, (music) => {
      const time = '<attributes><time><beats>4</beats><beat-type>4</beat-type></time></attributes>';
      const xml = score(
        music.map(([upper, lower], i) => {
          return `${i === 0 ? time : ''}${written(upper, 1)}<backup><duration>${length(upper)}</duration></backup>${written(lower, 2)}`;
        }),
      );
      const { text, losses } = importScore(xml);
      expect(resolve(parse(text)).problems).toEqual([]);
      expect(losses.filter((l) => l.kind === 'left out')).toEqual([]);
      const ours = passageOf(text).events.flatMap((event) =>
        event.spec.notes.map(
          ({ asked }): Tone => ({
            pitch: asked.kind === 'sounding' ? pitchName(asked.pitch) : '',
            eighths: event.duration.mul(8).valueOf(),
          }),
        ),
      );
      expect(sums(ours)).toEqual(sums(music.flat(2)));
    }),
    { seed: 5, numRuns: 150 },
  );
});

test('a slur that ends in another voice than it began in is kept, stray ends far apart make none, and a mark over a rest is told', () => {
  const START = '<attributes><divisions>2</divisions><time><beats>2</beats><beat-type>4</beat-type></time></attributes>';
  const slurred = (type: string, voice: number) => ({
    notations: `<slur type="${type}" number="1"/>`,
    after: `<voice>${voice}</voice>`,
  });
  const second = (eighths: number) => rest(eighths, '<voice>2</voice>');
  const bar = (number: number, content: string) => `<measure number="${number}">${number === 1 ? START : ''}${content}</measure>`;
  const back = '<backup><duration>4</duration></backup>';
  const crossing = score([
    bar(1, `${note('D5', 2, slurred('start', 1))}${rest(2)}${back}${second(2)}${note('E5', 2, slurred('stop', 2))}`),
    // Voice 1 has a slur of its own, which the stray end of voice 2 must not take.
    bar(2, `${note('D5', 2, slurred('start', 1))}${note('F#5', 2, slurred('stop', 1))}`),
    bar(3, note('D5', 4, slurred('start', 1))),
    bar(4, note('E5', 4)),
    bar(5, `${second(2)}${note('G5', 2, slurred('stop', 2))}`),
    bar(6, rest(4, '<notations><articulations><staccato/></articulations></notations>')),
  ]);
  const { text, losses } = importScore(crossing);
  expect(text.match(/slur\([^)]*\)/g)).toEqual(['slur(1/4 D5 E5)', 'slur(1/4 D5 F#5)']);
  expect(losses.filter(({ kind }) => kind === 'left out').map(({ bar, what, which }) => [bar, what, which])).toEqual([
    ['3', 'a slur that ends nowhere', undefined],
    ['5', 'the end of a slur that begins nowhere', undefined],
    ['6', 'a mark over a rest', 'staccato'],
  ]);
});

test('a key that changes inside a bar moves to its beginning, which is told', () => {
  const key = (fifths: number) => `<key><fifths>${fifths}</fifths></key>`;
  const read = importScore(
    score([
      `<measure number="1"><attributes><divisions>2</divisions>${key(0)}</attributes>${note('D5', 2)}<attributes>${key(-1)}</attributes>${note('F5', 2)}</measure>`,
    ]),
  );
  expect(read.losses.filter(({ what }) => what.includes('key')).map(({ bar, which }) => [bar, which])).toEqual([
    ['1', 'F major'],
  ]);
});

test('a note held under moving ones makes no slur that nobody wrote; a written one goes as far as it is written', () => {
  const slurs = (text: string) => writeMusicXml(passageOf(text)).match(/<slur type="\w+"/g) ?? [];
  expect(slurs('1/8 E5_+C6 E5_+B5 E5+A5')).toEqual([]);
  expect(slurs('1/8 slur(D5 E5_) E5 F#5')).toEqual(['<slur type="start"', '<slur type="stop"']);
  expect(slurs('1/4 slur(D5_ D5) E5')).toEqual([]);
});

test('what a score prints inside a note goes to the nearer end and is told; a small shift of the print is none (MusicXML 4.0: offset)', () => {
  const shifted = (content: string, by: number, sound = '') =>
    `<direction><direction-type>${content}</direction-type><offset${sound}>${by}</offset></direction>`;
  const wedge = (type: string) => `<wedge type="${type}"/>`;
  const read = (...content: string[]) => {
    const meter = '<time><beats>4</beats><beat-type>4</beat-type></time>';
    const xml = score([
      `<measure number="1"><attributes><divisions>8</divisions>${meter}</attributes>${content.join('')}</measure>`,
    ]);
    const { text, losses } = importScore(xml);
    return [text.split('\n').find((line) => line.endsWith('|')), losses.map(({ what, which }) => `${what}: ${which}`)];
  };
  const INSIDE = 'a dynamic, hairpin or text inside a note, moved to its beginning or end';
  const dynamic = '<dynamics><p/></dynamics>';
  expect(read(note('D5', 16), shifted(dynamic, -1), note('E5', 16))).toEqual(['1/2 D5 p E5 |', []]);
  expect(read(shifted(dynamic, 6), note('D5', 16), note('E5', 16))).toEqual(['p 1/2 D5 E5 |', [`${INSIDE}: p`]]);
  expect(read(shifted(dynamic, 1, ' sound="yes"'), note('D5', 16), note('E5', 16))).toEqual(['p 1/2 D5 E5 |', [`${INSIDE}: p`]]);
  const swell = [shifted(wedge('crescendo'), 12), shifted(wedge('stop'), 14), note('D5', 16), note('E5', 16)];
  expect(read(...swell)).toEqual([
    '1/2 D5 E5 |',
    [`${INSIDE}: crescendo`, `${INSIDE}: end`, 'a hairpin within one note: crescendo'],
  ]);
});

describe('voices that share a staff', () => {
  const START =
    '<attributes><divisions>2</divisions><key><fifths>0</fifths></key><time><beats>2</beats><beat-type>4</beat-type></time></attributes>';
  const voice = (number: number) => ({ after: `<voice>${number}</voice>` });
  const back = (eighths: number) => `<backup><duration>${eighths}</duration></backup>`;
  const divided = score(
    [
      `${START}${note('D5', 2, voice(1))}${note('A5', 2, voice(1))}`,
      // The lower voice is written for the second half alone: in the first both play the same.
      `${note('E5', 2, voice(1))}${note('G5', 1, voice(1))}${note('A5', 1, voice(1))}${back(2)}${note('B4', 2, voice(2))}`,
      // Here it rests while the upper plays.
      `${note('F#5', 4, voice(1))}${back(4)}${note('D5', 2, voice(2))}${rest(2, '<voice>2</voice>')}`,
    ].map((bar, i) => `<measure number="${i + 1}">${bar}</measure>`),
  );
  const bars = (divisi?: 'upper' | 'lower' | 'both') => {
    const { text, losses, divided: count } = importScore(divided, divisi ? { divisi } : {});
    expect(count).toBe(2);
    return [text.split('\n').filter((line) => line.includes('|')), losses.map(({ kind, what, which }) => [kind, what, which])];
  };

  test('one of them is read where that is asked for, the other told', () => {
    expect(bars('upper')).toEqual([
      ['1/4 D5 A5 |', '1/4 E5 1/8 G5 A5 |', '1/2 F#5 |'],
      [['left out', 'the lower of divided voices, as asked', '2 bars']],
    ]);
    expect(bars('lower')).toEqual([
      ['1/4 D5 A5 |', '1/4 E5 B4 |', '1/4 D5 rest |'],
      [['left out', 'the upper of divided voices, as asked', '2 bars']],
    ]);
  });

  test('all are read as double stops otherwise, which is told where nobody asked for it', () => {
    const [music, told] = bars();
    expect(music).toEqual(['1/4 D5 A5 |', '1/4 E5 1/8 G5+B4_ B4+A5 |', '1/4 F#5_+D5 F#5 |']);
    expect(told).toEqual([
      ['assumed', 'that voices which stand on one staff are played together, not divided between players', '2 bars'],
    ]);
    expect(bars('both')).toEqual([music, []]);
  });
});

describe('an ossia', () => {
  const details = (number: number, type: string) =>
    `<staff-details number="${number}"><staff-type>${type}</staff-type></staff-details>`;
  const on = (staff: number) => ({ after: `<voice>${staff}</voice><staff>${staff}</staff>` });
  const back = '<backup><duration>4</duration></backup>';
  const beside = `${note('D5', 4, on(1))}${back}${note('A5', 1, on(2))}${note('B5', 1, on(2))}${note('A5', 2, on(2))}`;

  test('on a staff of its own is told and left out, never played with the part; a staff that is none is read', () => {
    const xml = score([
      `<measure number="1"><attributes><divisions>2</divisions><staves>2</staves>${details(2, 'ossia')}</attributes>${beside}</measure>`,
      `<measure number="2">${beside}</measure>`,
      `<measure number="3"><attributes>${details(2, 'regular')}</attributes>${beside}</measure>`,
    ]);
    const { text, losses } = importScore(xml);
    expect(
      text
        .split('\n')
        .filter((line) => line.includes('|'))
        .slice(0, 2),
    ).toEqual(['1/2 D5 |', '1/2 D5 |']);
    expect(text).toContain('A5');
    const left = losses.filter(({ what }) => what.startsWith('an ossia'));
    expect(left.map(({ kind, bar }) => [kind, bar])).toEqual([
      ['left out', '1'],
      ['left out', '2'],
    ]);
  });

  test('that is all its part has is read, and that is told', () => {
    const { text, losses } = importScore(
      score([
        `<measure number="1"><attributes><divisions>2</divisions>${details(1, 'ossia')}</attributes>${note('D5', 4)}</measure>`,
      ]),
    );
    expect(text).toContain('1/2 D5 |');
    expect(losses.map(({ what }) => what)).toEqual(['an ossia that is the only staff of its part, read as the part']);
  });
});
