import { type MidiEvent, writeMidi } from 'midi-file';
import { describe, expect, test } from 'vitest';
import { importScore } from '../../server/exchange/import-score';
import { spelled } from '../../server/exchange/midi/key';
import { midiFile } from '../../server/exchange/midi/write';
import { lossText } from '../../server/exchange/score/losses';
import { Unreadable } from '../../server/exchange/unreadable';
import { pitchName } from '../../server/music/pitch';
import { solvedScene } from './solved';

const QUARTER = 480;
type Said = MidiEvent & { readonly at: number };

/** A file of one track for a violin; `notes` are key, beginning and end in quarters. */
function file(notes: readonly (readonly [number, number, number])[], said: readonly Partial<Said>[] = []): Uint8Array {
  const events: Said[] = [
    ...(said as Said[]),
    ...notes.flatMap(([noteNumber, from, to]) => [
      { at: from, deltaTime: 0, type: 'noteOn', channel: 0, noteNumber, velocity: 64 } as Said,
      { at: to, deltaTime: 0, type: 'noteOff', channel: 0, noteNumber, velocity: 0 } as Said,
    ]),
  ];
  let before = 0;
  const track = [...events]
    .sort((a, b) => a.at - b.at || (a.type === 'noteOff' ? -1 : 1))
    .map(({ at, ...event }) => {
      const ticks = Math.round(at * QUARTER);
      const deltaTime = ticks - before;
      before = ticks;
      return { ...event, deltaTime } as MidiEvent;
    });
  track.unshift({ deltaTime: 0, type: 'programChange', channel: 0, programNumber: 40 } as MidiEvent);
  track.push({ deltaTime: 0, meta: true, type: 'endOfTrack' } as MidiEvent);
  return Uint8Array.from(writeMidi({ header: { format: 1, numTracks: 1, ticksPerBeat: QUARTER }, tracks: [track] }));
}

const bars = (bytes: Uint8Array) =>
  importScore(bytes)
    .text.split('\n')
    .filter((line) => line.endsWith('|'));
const told = (bytes: Uint8Array) => importScore(bytes).losses.map(lossText);
const meter = (numerator: number, denominator: number, at = 0): Partial<Said> =>
  ({ at, meta: true, type: 'timeSignature', numerator, denominator, metronome: 24, thirtyseconds: 8 }) as Partial<Said>;
const key = (sharps: number, scale: 0 | 1): Partial<Said> =>
  ({ at: 0, meta: true, type: 'keySignature', key: sharps, scale }) as Partial<Said>;

describe('reading a MIDI file (MIDI Manufacturers Association, Standard MIDI Files 1.0, 1988)', () => {
  test('General MIDI’s program for plucked strings is a way of playing: written by us it is read back, and the instrument stays', () => {
    const text = 'instrument: cello\nmeter: 4/4\n1/4 C3 pizz D3 E3 arco F3 | pizz G3 A3 B3 C4 ||';
    const back = importScore(midiFile(solvedScene(text)));
    expect(back.text).toContain('instrument: cello');
    expect(back.text.split('\n').filter((line) => line.includes('|'))).toEqual([
      '1/4 C3 pizz D3 E3 arco F3 |',
      'pizz 1/4 G3 A3 B3 C4 |',
    ]);
    const plucked = { at: 0, deltaTime: 0, type: 'programChange', channel: 0, programNumber: 45 } as Partial<Said>;
    expect(
      bars(
        file(
          [
            [62, 0, 1],
            [64, 1, 2],
          ],
          [meter(2, 4), plucked],
        ),
      ),
    ).toEqual(['pizz 1/4 D4 E4 |']);
  });

  test('even notes are written as they are, without a word about it', () => {
    const bytes = file(
      [
        [62, 0, 0.5],
        [64, 0.5, 1],
        [66, 1, 1.25],
        [67, 1.25, 1.5],
        [69, 1.5, 2],
        [71, 2, 2 + 1 / 3],
        [73, 2 + 1 / 3, 2 + 2 / 3],
        [74, 2 + 2 / 3, 3],
        [76, 3, 4],
      ],
      [meter(4, 4), key(2, 0), { at: 0, meta: true, type: 'setTempo', microsecondsPerBeat: 625_000 } as Partial<Said>],
    );
    expect(bars(bytes)).toEqual(['1/8 D4 E4 1/16 F#4 G4 1/8 A4 1/12 B4 C#5 D5 1/4 E5 |']);
    expect(importScore(bytes).text).toContain('tempo: 1/4 = 96');
    expect(importScore(bytes).text).toContain('key: D major');
    expect(told(bytes).filter((line) => line.includes('assumed'))).toEqual([]);
  });

  test('uneven playing is written in the nearest likely values, and that is told', () => {
    // Off by up to 0.035 of a quarter, and let go a little early: a hand-made take, no recording.
    const off = [0.01, -0.02, 0.035, 0, -0.03, 0.02, -0.01, 0.03];
    const bytes = file(
      off.map((miss, i) => [62 + i, Math.max(0, i / 2 + miss), i / 2 + 0.43 + miss] as const),
      [meter(4, 4), key(0, 0)],
    );
    expect(bars(bytes)).toEqual(['1/8 D4 Eb4 E4 F4 F#4 G4 G#4 A4 |']);
    expect(told(bytes).join('\n')).toMatch(/assumed: the values of notes.*\d of 8 notes, by 0\.04 of a quarter at most/);
    expect(told(bytes).join('\n')).toMatch(/assumed: notes that end a little early.*: [78] of 8/);
  });

  test('short notes keep their rests, double stops and held notes sound together', () => {
    expect(
      bars(
        file(
          [
            [62, 0, 0.5],
            [64, 1, 1.5],
            [66, 2, 4],
          ],
          [meter(4, 4)],
        ),
      ),
    ).toEqual(['1/8 D4 rest E4 rest 1/2 F#4 |']);
    expect(
      bars(
        file(
          [
            [62, 0, 2],
            [69, 0.01, 2],
            [66, 2, 4],
            [69, 2, 3],
            [71, 3, 4],
          ],
          [meter(4, 4)],
        ),
      ),
    ).toEqual(['1/2 D4+A4 1/4 F#4_+A4 F#4+B4 |']);
  });

  test('a note over the bar line is tied, and meters change with their bars, an upbeat first', () => {
    expect(
      bars(
        file(
          [
            [62, 0, 1],
            [64, 1, 6],
            [66, 6, 7],
          ],
          [meter(1, 4), meter(4, 4, 1), meter(2, 4, 5)],
        ),
      ),
    ).toEqual(['1/4 D4 |', '1/1 E4_ |', '1/4 E4 F#4 |']);
  });

  test.each([
    ['3/8', 1_000_000, '3/8 = 40'],
    ['6/8', 500_000, '3/8 = 80'],
    ['2/4', 500_000, '1/4 = 120'],
    ['4/4', 10_000_000, '1/4 = 6'],
  ])(
    'in %s a tempo counts in what a musician counts in, as slow as a passage may be',
    (meterText, microsecondsPerBeat, tempo) => {
      const [count = 4, unit = 4] = meterText.split('/').map(Number);
      const said = { at: 0, meta: true, type: 'setTempo', microsecondsPerBeat } as Partial<Said>;
      expect(importScore(file([[62, 0, 1]], [meter(count, unit), said])).text).toContain(`tempo: ${tempo}\n`);
    },
  );

  test('what a file does not say is assumed and told: meter, tempo, key', () => {
    const lines = told(
      file([
        [62, 0, 1],
        [66, 1, 2],
        [69, 2, 3],
        [73, 3, 4],
      ]),
    ).join('\n');
    expect(lines).toContain('assumed: the meter: 4/4');
    expect(lines).toContain('assumed: the tempo: 1/4 = 120');
    expect(lines).toMatch(/assumed: the key, for the spelling of its notes: [DA] major/);
  });

  test('spelling follows the key: common practice, no source', () => {
    const names = (keys: readonly number[], fifths: number) => keys.map((k) => pitchName(spelled(k, fifths)));
    expect(names([60, 61, 63, 66, 68, 70], 0)).toEqual(['C4', 'C#4', 'Eb4', 'F#4', 'G#4', 'Bb4']);
    expect(names([63, 68, 61], -3)).toEqual(['Eb4', 'Ab4', 'Db4']);
    expect(names([61, 63, 68, 70, 60], 4)).toEqual(['C#4', 'D#4', 'G#4', 'A#4', 'B#3']);
    for (let fifths = -7; fifths <= 7; fifths++)
      for (let k = 40; k < 100; k++) expect(pitchName(spelled(k, fifths))).toMatch(/^[A-G](?:#{0,2}|b{0,2})\d$/);
  });

  test('parts are tracks, or the channels of one that play different instruments', () => {
    const track = (name: string, noteNumber: number): MidiEvent[] => [
      { deltaTime: 0, meta: true, type: 'trackName', text: name } as MidiEvent,
      { deltaTime: 0, type: 'noteOn', channel: 0, noteNumber, velocity: 60 } as MidiEvent,
      { deltaTime: QUARTER, type: 'noteOff', channel: 0, noteNumber, velocity: 0 } as MidiEvent,
      { deltaTime: 0, meta: true, type: 'endOfTrack' } as MidiEvent,
    ];
    const bytes = Uint8Array.from(
      writeMidi({
        header: { format: 1, numTracks: 3, ticksPerBeat: QUARTER },
        tracks: [track('Flute', 80), track('Violin 2', 70), track('Violoncello', 50)],
      }),
    );
    expect(importScore(bytes).part).toBe('Violin 2');
    expect(importScore(bytes, { part: '3' }).text).toContain('instrument: cello');
    expect(importScore(bytes, { part: 'Flute' }).parts.map((p) => p.name)).toEqual(['Flute', 'Violin 2', 'Violoncello']);
  });

  test('what we write comes back as it sounds', () => {
    const passage =
      'key: D major\nmeter: 4/4\ntempo: 1/4 = 84\n1/8 D4 E4 F#4 G4 1/4 A4 B4 |\n1/16 C#5 D5 E5 F#5 1/12 G5 F#5 E5 1/2 D4+A4 |';
    expect(importScore(midiFile(solvedScene(passage))).text).toContain(passage.slice(passage.indexOf('1/8')));
  });

  test('takes a time that grows with the notes, not with their square', () => {
    const notes = (count: number) => Array.from({ length: count }, (_, i) => [60 + (i % 12), i / 4, (i + 1) / 4] as const);
    const [small, large] = [file(notes(2_000), [meter(4, 4)]), file(notes(16_000), [meter(4, 4)])];
    const time = (bytes: Uint8Array) => {
      const before = process.cpuUsage();
      importScore(bytes);
      return process.cpuUsage(before).user;
    };
    time(small);
    expect(time(large) / time(small)).toBeLessThan(24);
  });

  test('a damaged file, one without notes, and one beyond all measure are refused in words', () => {
    const whole = file([[62, 0, 1]]);
    expect(() => importScore(whole.subarray(0, 30))).toThrow(Unreadable);
    expect(() => importScore(file([]))).toThrow(Unreadable);
    expect(() => importScore(file([[62, 0, 100_000]], [meter(1, 4)]))).toThrow(Unreadable);
  });
});
