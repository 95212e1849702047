import { describe, expect, test } from 'vitest';
import { parse } from '../../grammar/parse';
import { pitchName } from '../../server/music/pitch';
import type { PassageEvent } from '../../server/passage/passage';
import { resolve } from '../../server/passage/resolve';

function passage(text: string) {
  const { passages, problems } = resolve(parse(text));
  expect(problems).toEqual([]);
  const [first] = passages;
  if (!first) throw new Error('no passage');
  return first;
}

function words({ marks = [] }: PassageEvent): string {
  return marks.map(({ word, value }) => (value ? `${word} ${value.toFraction()}` : word)).join(' ');
}

function name({ spec }: PassageEvent): string {
  return spec.notes.map(({ asked }) => (asked.kind === 'sounding' ? pitchName(asked.pitch) : '?')).join('+');
}

describe('marks', () => {
  test('of a note and of the groups around it, of a motif’s notes and of its use', () => {
    const { events } = passage('motif wave = accent D5 E5\nslur(staccato(D5 tenuto E5)) fermata F#5 marcato(wave) G5');
    expect(events.map(words)).toEqual(['staccato', 'staccato tenuto', 'fermata', 'marcato accent', 'marcato', '']);
  });

  test('the notes of a phrase share one mark, two phrases have one each', () => {
    const [a, b, c, d] = passage('phrase(D5 E5) phrase(F#5 G5)').events.map(({ marks }) => marks?.[0]);
    expect(a).toEqual({ word: 'phrase' });
    expect(b).toBe(a);
    expect(c).not.toBe(a);
    expect(d).toBe(c);
  });

  test('notes are plucked from pizz to arco, over lines, and where a mark of their own says so', () => {
    const { events } = passage('1/4 A4 pizz B4 C5\nD5 | arco E5 pizz-left A4 pizz-snap G4 A4');
    expect(events.map(({ spec }) => spec.plucked ?? false)).toEqual([false, true, true, true, false, true, true, false]);
  });

  test('a stress belongs to the next note; with a p it leaves the music soft', () => {
    const { events } = passage('f sf D5 E5 fp F#5 G5 sfz slur(A5 B5)');
    expect(events.map((event) => `${event.spec.dynamic} ${words(event)}`.trim())).toEqual([
      'f sf',
      'f',
      'p fp',
      'p',
      'p sfz',
      'p',
    ]);
  });

  test('a tremolo lasts as long as its note, whatever it is repeated in', () => {
    const { events } = passage('1/2 tremolo(1/16 A5) tremolo B5 A5');
    expect(events.map((event) => `${event.duration.toFraction()} ${words(event)}`.trim())).toEqual([
      '1/2 tremolo 1/16',
      '1/2 tremolo',
      '1/2',
    ]);
  });

  test('two notes by turns last as long as is written together, and no others belong to them', () => {
    const { events } = passage('motif pair = fingered-tremolo(1/16 A5 C6)\n1/2 pair pair fingered-tremolo(E5 G5) D5');
    expect(events.map((event) => `${event.duration.toFraction()} ${words(event)} ${event.spec.alternates ?? ''}`.trim())).toEqual(
      [
        '1/4 fingered-tremolo 1/16',
        '1/4 fingered-tremolo 1/16 true',
        '1/4 fingered-tremolo 1/16',
        '1/4 fingered-tremolo 1/16 true',
        '1/4 fingered-tremolo',
        '1/4 fingered-tremolo true',
        '1/2',
      ],
    );
    // Of other than two notes it is none, and each keeps its time.
    expect(passage('1/2 fingered-tremolo(A5 C6 E6)').events.map((event) => event.duration.toFraction())).toEqual([
      '1/2',
      '1/2',
      '1/2',
    ]);
  });

  test('a rest of whole bars lasts as long as the meter says, in as many bars', () => {
    const { bars, events } = passage(
      'tempo: 1/4 = 60\nmeter: 3/4\n1/4 D5 E5 F#5 | rest 4 bars ||\nmeter: 2/4\nrest 2 bars | 1/2 G5 |',
    );
    expect(
      bars.map(({ number, length, together, close }) => `${number} ${length.toFraction()} ${together ?? ''}${close}`),
    ).toEqual(['1 3/4 |', '2 3/4 4|', '3 3/4 |', '4 3/4 |', '5 3/4 ||', '6 1/2 2|', '7 1/2 |', '8 1/2 |']);
    expect([events.at(-2)?.spec.rest, events.at(-1)?.bar]).toEqual([16, 8]);
  });

  test('what a mark says costs the notes nothing, but where it wants a finger: the demands on the solver are those without it', () => {
    const demands = (text: string) => passage(text).events.map(({ spec }) => spec);
    expect(demands('staccato D5 accent(E5 mordent F#5)')).toEqual(demands('D5 E5 F#5'));
    expect(demands('D5 trill E5').map(({ ornament }) => ornament)).toEqual([undefined, 'trill']);
  });
});

describe('grace notes', () => {
  test('take their time from the note after them, and none of the bar', () => {
    const { events, bars } = passage('tempo: 1/4 = 60\nmeter: 2/4\n1/4 D5 grace(1/16 E5 F#5) G5 | 1/4 D5 grace A5 G5 |');
    expect(events.map((event) => `${name(event)} ${event.duration.toFraction()} ${event.spec.seconds}`)).toEqual([
      'D5 1/4 1',
      'E5 0 0.125',
      'F#5 0 0.125',
      'G5 1/4 0.75',
      'D5 1/4 1',
      'A5 0 0.125',
      'G5 1/4 0.875',
    ]);
    expect(events.map(({ grace }) => grace?.toFraction())).toEqual([
      undefined,
      '1/16',
      '1/16',
      undefined,
      undefined,
      '1/8',
      undefined,
    ]);
    expect(bars.map(({ length }) => length.toFraction())).toEqual(['1/2', '1/2']);
  });

  test('at the end, or before a rest, take it from the note before; never more than half', () => {
    const { events } = passage('tempo: 1/4 = 60\n1/4 D5 grace(E5) rest 1/32 A5 grace(B5 C6)');
    expect(events.map((event) => `${name(event)} ${event.spec.seconds}`)).toEqual([
      'D5 0.875',
      'E5 0.125',
      'A5 0.0625',
      'B5 0.03125',
      'C6 0.03125',
    ]);
  });
});

describe('what holds from here on', () => {
  test('stands with the next note, on whatever line', () => {
    const { events } = passage('crescendo D5 E5 pizz\nend crescendo arco F#5');
    expect(events.map(({ directions = [] }) => directions.join(' '))).toEqual(['crescendo', '', 'pizz end crescendo arco']);
  });

  test('a key between bars holds from its bar', () => {
    const { key, bars } = passage('key: G major\n1/4 D5 |\nkey: D minor\nD5 | E5 |\nkey: G major\nD5 |');
    expect(key?.tonic.letter).toBe('G');
    expect(bars.map((bar) => bar.key && `${bar.key.tonic.letter} ${bar.key.mode}`)).toEqual([
      undefined,
      'D minor',
      'D minor',
      undefined,
    ]);
  });

  test('endings, jumps and rehearsal marks belong to their bars', () => {
    const { bars, instructions } = passage(
      'mark: A\n1/4 D5 | ending 1 E5 | F#5 :| ending 2 G5 ||\nmark: B\nsegno A5 | B5 da capo al fine ||\ncoda C6 | D6 fine',
    );
    expect(bars.map(({ ending }) => ending?.join())).toEqual([
      undefined,
      '1',
      '1',
      '2',
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
    expect(bars.map(({ jumps }) => jumps?.join())).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
      'segno',
      'da capo al fine',
      'coda',
      'fine',
    ]);
    expect(instructions).toEqual([
      { bar: 1, text: 'A', mark: true },
      { bar: 5, text: 'B', mark: true },
    ]);
  });

  test('a word behind a bar line ends the bar before it', () => {
    expect(passage('D5 || fine\nE5 | da capo').bars.map(({ jumps }) => jumps?.join())).toEqual(['fine', 'da capo']);
  });
});
