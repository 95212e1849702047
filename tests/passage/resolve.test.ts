import Fraction from 'fraction.js';
import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/parse';
import { pitchName } from '../../server/music/pitch';
import { contextAt, resolve } from '../../server/passage/resolve';
import { eventsOf, notesOf, read } from './reading';

const LIGHTHOUSE = `// Comments run to the end of the line.
instrument: violin
hand: medium

passage: Lighthouse study, bars 1-4
tempo: 1/4 = 96
meter: 4/4
> Full bows. Lift the touching finger as soon as the note has spoken.

1/8 D5 F#5 A5 D6o slur(1/16 E6o F#6o G6o A6o) 1/4 D7o |
1/4 E5<>A5 [II 1-4] G5<>D6 [I fifth] 1/2 D6o+A6o ||
`;

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

describe('where settings hold', () => {
  it('the file, its passages, and from a bar on', () => {
    const text = [
      'title: Harbour studies',
      'instrument: viola 16in',
      'pitch: A4 = 442',
      'tempo: 1/4 = 60',
      'passage: Low tide',
      'hand: small',
      'key: D minor',
      '1/4 D5 |',
      'tempo: 1/8 = 60',
      'harmonics: all',
      'D5 |',
      'passage: High tide',
      'instrument: violin',
      '1/4 D5 |',
    ].join('\n');
    const { passages, title, settings, problems } = read(text);
    expect(problems).toEqual([]);
    expect(title).toBe('Harbour studies');
    const [low, high] = passages;
    expect(low?.setup).toMatchObject({ a4: 442, hand: { name: 'small' }, instrument: { name: 'viola' } });
    expect(high?.setup).toMatchObject({ a4: 442, hand: { name: 'medium' }, instrument: { name: 'violin' } });
    expect([low?.key, high?.key]).toEqual([{ tonic: { letter: 'D', alter: 0 }, mode: 'minor' }, undefined]);
    expect(low?.events.map(({ spec }) => [spec.seconds, spec.notes[0]?.harmonic])).toEqual([
      [1, 'no'],
      [2, 'must'],
    ]);
    expect(high?.events.map(({ spec }) => [spec.seconds, spec.notes[0]?.harmonic])).toEqual([[1, 'no']]);
    expect(settings.map(({ key, scope, passage }) => `${key} ${scope} ${passage ?? ''}`.trim())).toEqual([
      'title file',
      'instrument file',
      'pitch file',
      'tempo file',
      'hand passage 0',
      'key passage 0',
      'tempo onward 0',
      'harmonics onward 0',
      'instrument passage 1',
    ]);
    const hand = settings.find(({ key }) => key === 'hand');
    expect(text.slice(hand?.valueSpan.start, hand?.valueSpan.end)).toBe('small');
    expect(text.slice(hand?.keySpan.start, hand?.keySpan.end)).toBe('hand');
  });

  it('an unknown value leaves the rest of the file as it is', () => {
    const { passages, settings } = read('instrument: banjolin\nhand: large\nD5');
    expect(passages[0]?.setup).toMatchObject({ hand: { name: 'large' }, instrument: { name: 'violin' } });
    expect(settings[0]).not.toHaveProperty('value');
  });

  it('a scordatura belongs to its instrument', () => {
    const strings = (text: string) =>
      read(text)
        .passages.at(-1)
        ?.setup.instrument.strings.map(({ pitch }) => pitchName(pitch));
    expect(strings('tuning: A3 D4 A4 E5\nD5')).toEqual(['E5', 'A4', 'D4', 'A3']);
    expect(strings('tuning: A3 D4 A4 E5\npassage: Quay\ninstrument: cello\nD3')).toEqual(['A3', 'D3', 'G2', 'C2']);
    expect(strings('tuning: A3 D4 A4 E5\npassage: Quay\ninstrument: violin 3/4\nD5')).toEqual(['E5', 'A4', 'D4', 'A3']);
  });

  it('measured reaches make the hand', () => {
    const reaches = read('hand: 1-2 48, 1-3 72, 1-4 98\nD5').passages[0]?.setup.hand.reaches;
    expect(reaches?.['1-4']?.most).toBe(98);
    expect(reaches?.['1-2']?.most).toBe(48);
    expect(reaches?.['T-1']).toBeUndefined();
  });

  it('from outside: defaults give way to the file, all else holds against it', () => {
    const text = 'hand: small\ntempo: 1/4 = 60\n1/4 D5 |\ntempo: 1/4 = 30\nD5 |';
    const tempo = { beat: new Fraction(1, 4), bpm: 120 };
    const forced = read(text, { tempo, hand: { kind: 'named', name: 'large' }, harmonics: 'allowed' }).passages[0];
    expect(forced?.setup.hand.name).toBe('large');
    expect(forced?.events.map(({ spec }) => [spec.seconds, spec.notes[0]?.harmonic])).toEqual([
      [0.5, 'may'],
      [0.5, 'may'],
    ]);
    const silent = read('hand: small\nD5', {
      defaults: { hand: { kind: 'named', name: 'large' }, instrument: { family: 'cello' } },
    });
    expect(silent.passages[0]?.setup).toMatchObject({ hand: { name: 'small' }, instrument: { name: 'cello' } });
    // A change from outside is not missed for the sake of what is remembered.
    expect(
      resolve(silent.tree, silent, { defaults: { instrument: { family: 'viola' } } }).passages[0]?.setup.instrument.name,
    ).toBe('viola');
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

describe('equal demands are one object', () => {
  it('specs and setups, across places and files', () => {
    const events = eventsOf('1/8 D5 E5 D5 1/4 D5');
    expect(events[0]?.spec).toBe(events[2]?.spec);
    expect(events[0]?.spec).not.toBe(events[3]?.spec);
    const other = read('tempo: 1/4 = 96\nhand: medium\nD5').passages[0];
    expect(other?.events[0]?.spec).toBe(events[0]?.spec);
    expect(other?.setup).toBe(read('D5').passages[0]?.setup);
  });

  it.each([
    ['D5', 'D5o'],
    ['D5', 'ff D5'],
    ['D5', 'D5 rest'],
    ['D5', 'D5 [II]'],
    ['D5 [II]', 'D5 [2]'],
    ['slur(D5 E5)', 'D5 E5'],
    ['slide D6o', 'D6o'],
    ['E5<>A5', 'E5<>A5 [1-4]'],
    ['<>A4', '<>A4 = A5'],
    ['D5_ D5', 'D5 D5'],
    ['F#5', 'Gb5'],
  ])('different demands are not: %s and %s', (a, b) => {
    expect(eventsOf(a)[0]?.spec).not.toBe(eventsOf(b)[0]?.spec);
  });

  it('exact durations of the same length in seconds are one demand', () => {
    const [eighth] = eventsOf('tempo: 1/4 = 96\n1/8 D5');
    const [quarter] = eventsOf('tempo: 1/4 = 192\n1/4 D5');
    expect(quarter?.spec).toBe(eighth?.spec);
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
