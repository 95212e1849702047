import { type MidiEvent, parseMidi } from 'midi-file';
import { describe, expect, test } from 'vitest';
import { keyAndBend, midiFile } from '../../server/exchange/midi/write';
import { solvedScene } from './solved';

interface Heard {
  readonly string: number;
  /** Quarters from the start. */
  readonly from: number;
  readonly to: number;
  readonly hz: number;
  readonly velocity: number;
}

/** What a synthesizer that follows the standard would sound: key and wheel of the note's own channel. */
function heard(bytes: Uint8Array): readonly Heard[] {
  const { header, tracks } = parseMidi(bytes);
  const quarter = header.ticksPerBeat ?? 1;
  const wheel = new Map<number, number>();
  const sounding = new Map<string, Omit<Heard, 'to'>>();
  const notes: Heard[] = [];
  let at = 0;
  for (const event of tracks[1] as MidiEvent[]) {
    at += event.deltaTime / quarter;
    if (event.type === 'pitchBend') wheel.set(event.channel, event.value);
    else if (event.type === 'noteOn') {
      const hz = 440 * 2 ** ((event.noteNumber - 69 + (2 * (wheel.get(event.channel) ?? 0)) / 8192) / 12);
      sounding.set(`${event.channel} ${event.noteNumber}`, { string: event.channel, from: at, hz, velocity: event.velocity });
    } else if (event.type === 'noteOff') {
      const note = sounding.get(`${event.channel} ${event.noteNumber}`);
      if (note) notes.push({ ...note, to: at });
    }
  }
  return notes;
}

const cents = (a: number, b: number) => 1200 * Math.log2(a / b);

describe('a MIDI file', () => {
  test('begins with the header of the standard (MIDI Manufacturers Association, Standard MIDI Files 1.0, 1988)', () => {
    const bytes = midiFile(solvedScene('1/4 D6o'));
    expect(String.fromCharCode(...bytes.subarray(0, 4))).toBe('MThd');
    expect([...bytes.subarray(4, 14)]).toEqual([0, 0, 0, 6, 0, 1, 0, 2, 10_080 >> 8, 10_080 & 255]);
  });

  test('sounds every note at its true pitch, on the channel of its string', () => {
    const scene = solvedScene('pitch: A4 = 442\n1/4 D6o [III] F#6o [III] A6o [II] E5<>A5 [II 1-4] G3 [IV open] E7o [I natural]');
    const notes = heard(midiFile(scene));
    expect(notes.map((n) => n.string)).toEqual([2, 2, 1, 1, 3, 0]);
    for (const [i, note] of notes.entries()) {
      const expected = scene.events[i]?.notes[0];
      expect(Math.abs(cents(note.hz, expected?.hz ?? 0))).toBeLessThan(0.02);
    }
    // The fifth partial of the D string is a pure third, 13.686 cents below equal temperament, of a D 1.955 flat: derived.
    const [d6, fSharp6] = notes;
    expect(cents(fSharp6?.hz ?? 0, d6?.hz ?? 1)).toBeGreaterThan(386.3);
    expect(cents(fSharp6?.hz ?? 0, d6?.hz ?? 1)).toBeLessThan(388.5);
  });

  // General MIDI level 1, counted from 0 (MIDI Manufacturers Association, 1991; from memory): 40 violin, 45 pizzicato strings.
  test('changes to pizzicato strings where a string is plucked, and back', () => {
    const { tracks } = parseMidi(midiFile(solvedScene('1/4 A4 [open] pizz A4 [open] A4 [open] arco A4 [open]')));
    const programs: (number | string)[] = [];
    for (const event of tracks[1] as MidiEvent[]) {
      if (event.type === 'programChange' && event.channel === 1) programs.push(event.programNumber);
      if (event.type === 'noteOn') programs.push('note');
    }
    expect(programs).toEqual([40, 'note', 45, 'note', 'note', 40, 'note']);
  });

  // What an ornament plays: common practice, no source. The neighbours are those of the key.
  test.each([
    ['trill F#5', [78, 79]],
    ['trill-flat D5', [74, 75]],
    ['trill-sharp F#5', [78, 80]],
    ['mordent D5', [74, 73]],
    ['inverted-mordent D5', [74, 76]],
    ['turn D5', [76, 74, 73]],
  ])('%s sounds its notes, and begins and ends where it is written', (text, keys) => {
    const bytes = midiFile(solvedScene(`key: D major\n1/2 ${text} 1/4 A4`));
    const notes = heard(bytes);
    const ornament = notes.slice(0, -1).map(({ hz }) => Math.round(69 + 12 * Math.log2(hz / 440)));
    expect([...new Set(ornament)]).toEqual(keys);
    expect(ornament.length).toBeGreaterThanOrEqual(3);
    expect(ornament.at(-1)).toBe(text.endsWith('F#5') ? 78 : 74);
    expect([notes[0]?.from, notes.at(-2)?.to, notes.at(-1)?.from]).toEqual([0, 2, 2]);
  });

  test('two notes by turns sound by turns, as fast as is written and as long as both', () => {
    const notes = heard(midiFile(solvedScene('tempo: 1/4 = 60\n1/2 fingered-tremolo(1/16 A4 C5) 1/4 D5')));
    const keys = notes.map(({ hz }) => Math.round(69 + 12 * Math.log2(hz / 440)));
    expect(keys).toEqual([69, 72, 69, 72, 69, 72, 69, 72, 74]);
    expect(notes.map(({ from }) => from)).toEqual([0, 0.25, 0.5, 0.75, 1, 1.25, 1.5, 1.75, 2]);
    const fast = heard(midiFile(solvedScene('tempo: 1/4 = 60\n1/2 fingered-tremolo(A4 C5)')));
    expect(fast.length).toBeGreaterThan(16);
    expect(fast.at(-1)?.to).toBeCloseTo(2, 9);
  });

  test('ends a note before the same one begins again on its string', () => {
    const notes = heard(midiFile(solvedScene('1/4 A5 [I] A5 [I] A5 [I]')));
    expect(notes.map(({ from, to }) => [from, to])).toEqual([
      [0, 1],
      [1, 2],
      [2, 3],
    ]);
  });

  // Three bytes for the microseconds of a quarter: Standard MIDI Files 1.0 (from memory).
  test('writes the slowest tempo that the file can hold for one slower still', () => {
    const [conductor = []] = parseMidi(midiFile(solvedScene('tempo: 1/16 = 5\n1/4 D5'))).tracks;
    expect(conductor.flatMap((event) => (event.type === 'setTempo' ? [event.microsecondsPerBeat] : []))).toEqual([0xffffff]);
  });

  test('plays repeats, at the tempo of each bar', () => {
    const [bars, more] = ['tempo: 1/4 = 120\n', '\ntempo: 1/4 = 60\n'];
    const repeated = midiFile(solvedScene(`${bars}|: 1/4 D5 E5 |${more}F5 rest :| G5 ||`));
    const writtenOut = midiFile(solvedScene(`${bars}1/4 D5 E5 |${more}F5 rest |${bars}D5 E5 |${more}F5 rest | G5 ||`));
    expect(heard(repeated)).toEqual(heard(writtenOut));
    expect(heard(repeated)).toHaveLength(7);
  });

  test('grace notes take their time from the note after them, and the beat goes on evenly', () => {
    const bytes = midiFile(solvedScene('meter: 2/4\ntempo: 1/4 = 90\n1/4 D5 grace(1/16 E5 F5) G5 | A5 grace(B5) rest ||'));
    expect(heard(bytes).map(({ from, to }) => [from, to])).toEqual([
      [0, 1],
      [1, 1.125],
      [1.125, 1.25],
      [1.25, 2],
      [2, 2.875],
      [2.875, 3],
    ]);
    expect((parseMidi(bytes).tracks[0] ?? []).filter((e) => e.type === 'setTempo')).toHaveLength(1);
  });

  test('staccato is short, a tremolo repeated, an accent louder, endings and keys as they are played', () => {
    const shortened = heard(midiFile(solvedScene('tempo: 1/4 = 60\n1/4 staccato D5 tremolo(1/16 E5) F5')));
    expect(shortened.map(({ from, to }) => [from, to])).toEqual([
      [0, 0.5],
      [1, 1.25],
      [1.25, 1.5],
      [1.5, 1.75],
      [1.75, 2],
      [2, 3],
    ]);
    const bytes = midiFile(
      solvedScene('key: G major\nmeter: 1/4\n|: 1/4 D5 | ending 1 E5 :| ending 2 F5 ||\nkey: D minor\naccent A5 ||'),
    );
    expect(heard(bytes)).toHaveLength(5);
    const [conductor = [], strings = []] = parseMidi(bytes).tracks;
    expect(conductor.flatMap((e) => (e.type === 'keySignature' ? [[e.key, e.scale]] : []))).toEqual([
      [1, 0],
      [-1, 1],
    ]);
    const loud = strings.flatMap((e) => (e.type === 'noteOn' ? [e.velocity] : []));
    expect(loud.at(-1)).toBeGreaterThan(loud[0] ?? 127);
  });

  test('keeps time: durations, tuplets, rests, ties, tempo and meter', () => {
    const bytes = midiFile(
      solvedScene(
        'meter: 4/4\ntempo: 1/4 = 90\n1/12 D5 E5 F5 1/4 rest 1/2 G5_ | 1/4 G5 A5 1/2 rest |\ntempo: 3/8 = 40\n1/1 D5 |',
      ),
    );
    const notes = heard(bytes);
    expect(notes.map(({ from, to }) => [from, to].map((q) => Math.round(q * 1000) / 1000))).toEqual([
      [0, 0.333],
      [0.333, 0.667],
      [0.667, 1],
      [2, 5],
      [5, 6],
      [8, 12],
    ]);
    const conductor = parseMidi(bytes).tracks[0] ?? [];
    expect(conductor.flatMap((e) => (e.type === 'setTempo' ? [e.microsecondsPerBeat] : []))).toEqual([666_667, 1_000_000]);
    expect(conductor.flatMap((e) => (e.type === 'timeSignature' ? [[e.numerator, e.denominator]] : []))).toEqual([[4, 4]]);
  });

  test('a rest under another tempo than the note before it lasts as long as it is written, and as it is heard', () => {
    const bytes = midiFile(solvedScene('meter: 2/4\ntempo: 1/4 = 120\n1/4 rest D5 |\ntempo: 1/4 = 60\n1/4 rest D5 ||'));
    expect(heard(bytes).map(({ from, to }) => [from, to])).toEqual([
      [1, 2],
      [3, 4],
    ]);
    let at = 0;
    const tempos = (parseMidi(bytes).tracks[0] ?? []).flatMap((e) => {
      at += e.deltaTime / 10_080;
      return e.type === 'setTempo' ? [[at, e.microsecondsPerBeat]] : [];
    });
    expect(tempos).toEqual([
      [0, 500_000],
      [2, 1_000_000],
    ]);
  });

  test('plays double stops together and louder where the dynamic says so', () => {
    const notes = heard(midiFile(solvedScene('p 1/4 D6o+A6o ff G3+D4')));
    expect(notes.map((n) => n.from)).toEqual([0, 0, 1, 1]);
    expect(notes.map((n) => n.velocity)).toEqual([49, 49, 112, 112]);
  });

  test('of a long passage holds every note', () => {
    const notes = heard(midiFile(solvedScene(`1/16 ${'D5 E5 F#5 G5 '.repeat(200)}`)));
    expect(notes).toHaveLength(800);
    expect(notes.at(-1)).toMatchObject({ from: 199.75, to: 200 });
  });

  test('says the instrument, and that the wheel spans two semitones', () => {
    const track = parseMidi(midiFile(solvedScene('instrument: viola\n1/4 A4'))).tracks[1] ?? [];
    expect(track.flatMap((e) => (e.type === 'programChange' ? [e.programNumber] : []))).toEqual([41, 41, 41, 41]);
    const first = track.flatMap((e) => (e.type === 'controller' && e.channel === 0 ? [[e.controllerType, e.value]] : []));
    expect(first).toEqual([
      [101, 0],
      [100, 0],
      [6, 2],
      [38, 0],
      [101, 127],
      [100, 127],
    ]);
  });

  test('is the same bytes every time, and silent where nothing can be played', () => {
    const text = 'passage: Brücke — ♯\n1/4 D6o C2 E6o';
    expect(midiFile(solvedScene(text))).toEqual(midiFile(solvedScene(text)));
    expect(heard(midiFile(solvedScene(text))).map((n) => n.from)).toEqual([0, 2]);
  });

  test.each([
    [440, 69, 0],
    [445, 69, 802],
    [466.1638, 70, 0],
  ])('%f Hz is key %i with the wheel at %i', (hz, key, bend) => {
    expect(keyAndBend(hz).key).toBe(key);
    expect(Math.abs(keyAndBend(hz).bend - bend)).toBeLessThanOrEqual(1);
  });
});
