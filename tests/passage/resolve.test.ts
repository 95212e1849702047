import Fraction from 'fraction.js';
import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/parse';
import { contextAt, resolve } from '../../server/passage/resolve';
import { LIGHTHOUSE } from '../support/lighthouse';
import { eventsOf, notesOf, read } from './reading';

describe('a whole passage', () => {
  const { passages, problems, title } = read(LIGHTHOUSE);
  const [passage] = passages;

  it('is named, without problems, and knows its lines', () => {
    expect(problems).toEqual([]);
    expect(passage?.title).toBe('Lighthouse study, bars 1-4');
    expect(title).toBe('');
    expect(passage?.lines).toEqual({ first: 4, end: 12 });
    expect(passage?.instructions).toEqual([
      { bar: 1, text: 'Full bows. Lift the touching finger as soon as the note has spoken.' },
    ]);
  });

  it('has its events in bars and beats', () => {
    expect(passage?.events.map((event) => `${event.bar}:${event.beat.toFraction()} ${notesOf(event)}`)).toEqual([
      '1:1 D5',
      '1:3/2 F#5',
      '1:2 A5',
      '1:5/2 D6o',
      '1:3 E6o',
      '1:13/4 F#6o',
      '1:7/2 G6o',
      '1:15/4 A6o',
      '1:4 D7o',
      '2:1 E5<>A5',
      '2:2 G5<>D6',
      '2:3 D6o+A6o',
    ]);
    expect(passage?.bars).toMatchObject([
      { number: 1, firstEvent: 0, endEvent: 9, meter: { count: 4, unit: 4 }, close: '|' },
      { number: 2, firstEvent: 9, endEvent: 12, close: '||' },
    ]);
  });

  it('lasts what the tempo says', () => {
    // An eighth at 96 quarters a minute: 60 / 96 / 2 s.
    expect(passage?.events[0]?.spec.seconds).toBe(0.3125);
    const whole = passage?.events.reduce((sum, { spec }) => sum + spec.seconds + spec.rest, 0);
    expect(whole).toBeCloseTo((8 * 60) / 96, 12);
  });

  it('carries its hints as pins and its strokes as slurs', () => {
    expect(passage?.events[9]?.spec.notes[0]?.pins).toEqual({ string: 2, fingers: { stop: 1, touch: 4 } });
    expect(passage?.events[10]?.spec.notes[0]?.pins).toEqual({ string: 1, interval: 'fifth' });
    expect(passage?.events.map(({ spec }) => (spec.slurred ? 's' : '.')).join('')).toBe('....sss.....');
  });

  it('knows where each note and its hints stand', () => {
    const source = passage?.events[9]?.source;
    const line = LIGHTHOUSE.split('\n')[source?.line ?? 0] ?? '';
    const [note] = source?.notes ?? [];
    expect(line.slice(note?.form.start, note?.form.end)).toBe('E5<>A5');
    expect(line.slice(note?.hints?.start, note?.hints?.end)).toBe('[II 1-4]');
    expect(line.slice(note?.span.start, note?.span.end)).toBe('E5<>A5 [II 1-4]');
  });
});

describe('defaults', () => {
  it('one line is a passage: a medium hand on a violin in pure fifths at 440 Hz, eighths at 1/4 = 96, mf', () => {
    const { passages } = read('D6o F#6o A6o');
    const [passage] = passages;
    expect(passage?.title).toBe('');
    expect(passage?.setup).toMatchObject({
      a4: 440,
      temperament: { kind: 'equal' },
      hand: { name: 'medium' },
      instrument: { name: 'violin' },
    });
    expect(passage?.events).toHaveLength(3);
    expect(passage?.events[0]).toMatchObject({ bar: 1, spec: { dynamic: 'mf', seconds: 0.3125 } });
    expect(passage?.events[0]?.duration.equals(new Fraction(1, 8))).toBe(true);
    expect(passage?.bars).toHaveLength(1);
  });

  it('a file without music has no passage, a passage line without music has no events', () => {
    expect(read('').passages).toEqual([]);
    expect(read('instrument: cello\n// nothing yet').passages).toEqual([]);
    expect(read('passage: Empty pier').passages).toMatchObject([{ title: 'Empty pier', events: [], bars: [] }]);
  });
});

describe('which notes are harmonics', () => {
  it.each([
    ['D5 D6o <>A4 E5<>A5', 'no must must must'],
    ['harmonics: all\nD5 D6 [stopped] A4 [open] A4 [0]', 'must no no no'],
    ['harmonics: allowed\nD5 D6o D6 [natural] D6 [stopped] D6 [2]', 'may must must no may'],
    ['D6 [natural] E7 [artificial] E7 [1-4] E7 [fourth] E6 [at 1/3]', 'must must must must must'],
  ])('%s', (text, expected) => {
    expect(
      eventsOf(text)
        .map(({ spec }) => spec.notes[0]?.harmonic)
        .join(' '),
    ).toBe(expected);
  });

  it('an expected sounding pitch narrows a lone diamond', () => {
    expect(eventsOf('<>A4 = A5')[0]?.spec.notes[0]?.asked).toMatchObject({
      kind: 'diamond',
      sounding: { letter: 'A', octave: 5 },
    });
  });
});

describe('rests', () => {
  it('belong to the event before, over lines and bars', () => {
    const events = eventsOf('tempo: 1/4 = 60\n1/4 D5 rest rest |\nrest 1/2 rest |\n// calm\n1/4 rest E5');
    expect(events.map(({ spec }) => [spec.seconds, spec.rest])).toEqual([
      [1, 6],
      [1, 0],
    ]);
  });

  it('open a passage as an event without notes', () => {
    const events = eventsOf('tempo: 1/4 = 60\n1/4 rest rest\nrest D5');
    expect(events.map(({ spec, beat }) => [spec.notes.length, spec.seconds, spec.rest, beat.valueOf()])).toEqual([
      [0, 0, 3, 1],
      [1, 1, 0, 4],
    ]);
  });
});

describe('bars', () => {
  it('an upbeat is bar 0 and counts from the end of the bar', () => {
    const { passages } = read('meter: 4/4\n1/8 C5 D5 | 1/4 E5 F5\nG5 A5 | 1/2 B5 1/4 C6 ||');
    expect(passages[0]?.events.map(({ bar, beat }) => `${bar}:${beat.toFraction()}`)).toEqual([
      '0:4',
      '0:9/2',
      '1:1',
      '1:2',
      '1:3',
      '1:4',
      '2:1',
      '2:3',
    ]);
  });

  it('an upbeat that is closed on a later line is counted so from its first line', () => {
    expect(eventsOf('meter: 3/4\n1/8 C5\nD5 | 1/4 E5 F5 G5 |').map(({ bar, beat }) => `${bar}:${beat.toFraction()}`)).toEqual([
      '0:3',
      '0:7/2',
      '1:1',
      '1:2',
      '1:3',
    ]);
  });

  it('compound meters are counted in their own note value', () => {
    expect(eventsOf('meter: 6/8\n1/8 C5 D5 E5 F5 G5 A5 |').map(({ beat }) => beat.valueOf())).toEqual([1, 2, 3, 4, 5, 6]);
  });

  it('repeats and double bars close and open them', () => {
    const { passages } = read('|: 1/4 C5 :|\n|: D5 | ||\nE5 |: F5 rest | rest | G5');
    expect(
      passages[0]?.bars.map(({ open, close, firstEvent, endEvent }) => `${open ?? ''}${firstEvent}-${endEvent}${close}`),
    ).toEqual(['|:0-1:|', '|:1-2||', '2-3|:', '|:3-4|', '4-4|', '4-5']);
  });

  it('an instruction stands above the next bar', () => {
    const { passages } = read('> one\n1/4 C5 |\n> two\nD5\n> three\nE5 |\nF5 |\n> after the end');
    expect(passages[0]?.instructions).toEqual([
      { bar: 1, text: 'one' },
      { bar: 2, text: 'two' },
      { bar: 3, text: 'three' },
      { bar: 3, text: 'after the end' },
    ]);
  });
});

describe('strokes', () => {
  it('the direction stands on the first event only', () => {
    const events = eventsOf('up(D5 E5) down(F5) G5 slur(A5 B5 C6)');
    expect(events.map(({ bow }) => bow ?? '-').join(' ')).toBe('up - down - - - -');
    expect(events.map(({ spec }) => (spec.slurred ? 's' : '.')).join('')).toBe('s...ss.');
  });

  it('a tie keeps the bow going', () => {
    expect(eventsOf('D5_ | D5 E5').map(({ spec }) => [spec.slurred, spec.held])).toEqual([
      [true, []],
      [false, [[0, 0]]],
      [false, []],
    ]);
  });

  it('a held harmonic stays one', () => {
    expect(eventsOf('D6o_ D6').map(notesOf)).toEqual(['D6o', 'D6o']);
    expect(eventsOf('E5<>A5_ E7').map(notesOf)).toEqual(['E5<>A5', 'E5<>A5']);
  });

  it('two held notes find their own', () => {
    expect(eventsOf('D5_+A5_\nA5+D5')[1]?.spec.held).toEqual([
      [0, 1],
      [1, 0],
    ]);
    expect(eventsOf('A5_+A5_ A5+A5')[1]?.spec.held).toEqual([
      [0, 0],
      [1, 1],
    ]);
  });
});

it('what holds at the start of a line can be asked', () => {
  const resolved = read('tempo: 1/4 = 60\nf 1/16 D5\nE5');
  expect(contextAt(resolved, 2)).toMatchObject({ dynamic: 'f', tempo: { bpm: 60 } });
  expect(contextAt(resolved, 2)?.duration.toFraction()).toBe('1/16');
  expect(contextAt(resolved, 0)).toBeUndefined();
});

it('a broken line costs that line', () => {
  const { passages } = resolve(parse('1/4 D5\n((( ??? +++ []\n=E5 <> slide |||\nE5'));
  const [first, last] = [passages[0]?.events[0], passages[0]?.events.at(-1)];
  expect([first, last].map((event) => event && `${event.source.line} ${notesOf(event)}`)).toEqual(['0 D5', '3 E5']);
});
