import Fraction from 'fraction.js';
import { type MidiEvent, writeMidi } from 'midi-file';
import { KEY_NAMES } from '../../music/key-names';
import type { SceneEvent, SceneNote, ScenePassage } from '../../protocol/scene';
import { asPlayed } from '../../scene/sound/as-played';
import { barStarts, type ClockPoint, clockPoints } from '../../scene/sound/clock';
import { stressOf } from '../../scene/sound/marks';
import { sceneMeter, timelineOf } from '../../scene/sound/timeline';
import { raised } from '../../scene/sound/tone';
import { PLUCKED } from './performed';

/** Ticks of a quarter: 2, 3, 5 and 7 divide it, so common notes and tuplets fall on whole ticks. */
const QUARTER = 10_080;
/** General MIDI level 1 programs, counted from 0 as the wire does (MIDI Manufacturers Association, 1991). */
const PROGRAMS = { violin: 40, viola: 41, cello: 42 } as const;
/** Semitones that the pitch wheel bends each way; the standard's own default, and set all the same. */
const BEND_RANGE = 2;
const VELOCITY: Readonly<Record<string, number>> = { ppp: 20, pp: 33, p: 49, mp: 64, mf: 80, f: 96, ff: 112, fff: 126 };

type Event = MidiEvent & { readonly at: number; readonly order: number };
/** `MidiEvent` without the time before it, kind by kind. */
type Undated<T> = T extends MidiEvent ? Omit<T, 'deltaTime'> : never;

/**
 * A solved passage as a Standard MIDI File, format 1: what sounds, not what is written. Each string has a
 * channel of its own (I is channel 1), whose pitch wheel carries the cents, the string's stiffness included. Held notes sound
 * once, repeats come twice; events that can't be played are silent. Equal passages give equal bytes.
 */
export function midiFile(written: ScenePassage): Uint8Array {
  const { passage } = asPlayed(written);
  const ticks = tickClock(passage);
  const conductor = [
    { at: 0, order: 0, ...dated({ meta: true, type: 'trackName', text: ascii(passage.title || 'Passage') }) },
    ...meters(passage),
    ...keys(passage),
    ...tempos(passage),
  ];
  const strings = [
    { at: 0, order: 0, ...dated({ meta: true, type: 'trackName', text: ascii(passage.board.name) }) },
    ...setUp(passage),
  ];
  const { soundings } = timelineOf(passage);
  const programs = new Map<number, number>();
  for (const { event, note, at, seconds, above } of soundings) {
    const scene = passage.events[event];
    const sound = scene?.notes[note];
    if (!scene || !sound) continue;
    const usual = PROGRAMS[passage.board.family];
    const program = scene.plucked ? PLUCKED : usual;
    if (program !== (programs.get(sound.stringIndex) ?? usual)) strings.push(programOn(sound.stringIndex, program, ticks(at)));
    programs.set(sound.stringIndex, program);
    strings.push(...sounded(raised(sound, above), velocityOf(scene), ticks(at), ticks(at + seconds)));
  }
  const end = ticks(Number.POSITIVE_INFINITY);
  return fileOf([inOrder(conductor, end), inOrder(strings, end)]);
}

/** The writer's own length of what stands before a track's events: the file's header, and name and length of the track. */
const HEADER = 14;
const TRACK_HEADER = 8;
/** Events that go to the writer at once: it copies all that it has for each event, so a long track is written in pieces. */
const PIECE = 256;

function fileOf(tracks: readonly (readonly MidiEvent[])[]): Uint8Array {
  const header = { format: 1 as const, numTracks: tracks.length, ticksPerBeat: QUARTER };
  const bytes = writeMidi({ header, tracks: tracks.map(() => []) }).slice(0, HEADER);
  const chunks = tracks.map((events) => {
    const pieces: number[][] = [];
    for (let i = 0; i < events.length; i += PIECE) {
      pieces.push(writeMidi({ header, tracks: [events.slice(i, i + PIECE)] }).slice(HEADER + TRACK_HEADER));
    }
    return pieces.flat();
  });
  return Uint8Array.from([bytes, ...chunks.map((chunk) => [...trackHeader(chunk.length), ...chunk])].flat());
}

function trackHeader(length: number): readonly number[] {
  return [...'MTrk'].map((letter) => letter.charCodeAt(0)).concat([24, 16, 8, 0].map((shift) => (length >>> shift) & 255));
}

/** The key nearest to a frequency and what the wheel must add, -8192 to 8191 for `BEND_RANGE` semitones down to up. */
export function keyAndBend(hz: number): { readonly key: number; readonly bend: number } {
  const exact = 69 + 12 * Math.log2(hz / 440);
  const key = Math.min(127, Math.max(0, Math.round(exact)));
  const bend = Math.round(((exact - key) / BEND_RANGE) * 8192);
  return { key, bend: Math.min(8191, Math.max(-8192, bend)) };
}

function velocityOf(event: SceneEvent): number {
  return Math.min(127, Math.round((VELOCITY[event.dynamic] ?? 80) * (1 + stressOf(event))));
}

function sounded(note: SceneNote, velocity: number, from: number, to: number): readonly Event[] {
  const channel = note.stringIndex;
  const { key, bend } = keyAndBend(note.hz);
  return [
    { at: from, order: 1, ...dated({ type: 'pitchBend', channel, value: bend }) },
    { at: from, order: 2, ...dated({ type: 'noteOn', channel, noteNumber: key, velocity }) },
    { at: to, order: 0, ...dated({ type: 'noteOff', channel, noteNumber: key, velocity: 0 }) },
  ];
}

function programOn(channel: number, programNumber: number, at: number): Event {
  return { at, order: 0, ...dated({ type: 'programChange', channel, programNumber }) };
}

/** Program and bend range of every string's channel. The range is set by registered parameter 0 and then closed again. */
function setUp({ board }: ScenePassage): readonly Event[] {
  const CONTROLS = [
    [101, 0],
    [100, 0],
    [6, BEND_RANGE],
    [38, 0],
    [101, 127],
    [100, 127],
  ] as const;
  return board.strings.flatMap((_, channel) => [
    programOn(channel, PROGRAMS[board.family], 0),
    ...CONTROLS.map(([controllerType, value]) => ({
      at: 0,
      order: 0,
      ...dated({ type: 'controller', channel, controllerType, value }),
    })),
  ]);
}

/** Tempo of every note, and of silence whatever makes it as long as it is: it may stand under another tempo than the note before it. */
function tempos(passage: ScenePassage): readonly Event[] {
  const points = clockPoints(passage);
  let before = 0;
  return points.slice(1).flatMap(({ written, seconds }, index) => {
    const from = points[index] as ClockPoint;
    const quarters = written.sub(from.written).valueOf() * 4;
    if (quarters <= 0) return [];
    const quarter = Math.round(((seconds - from.seconds) * 1e6) / quarters);
    // The file holds three bytes; slower than 3.6 quarters a minute can't be written.
    const microsecondsPerBeat = Math.min(0xffffff, quarter);
    // Nobody hears a millionth; it comes of the seconds' own rounding.
    if (Math.abs(microsecondsPerBeat - before) <= 1) return [];
    before = microsecondsPerBeat;
    return [{ at: tickOf(from.written), order: 0, ...dated({ meta: true, type: 'setTempo', microsecondsPerBeat }) }];
  });
}

/** Sharps of the key, flats negative, where it is new; nothing where the passage names none. */
function keys({ bars, key: usual }: ScenePassage): readonly Event[] {
  const starts = barStarts(bars);
  let before: string | undefined;
  return bars.flatMap((bar, index) => {
    const key = bar.key ?? usual;
    const sharps = key ? KEY_NAMES[key.mode].indexOf(key.tonic) - 7 : Number.NaN;
    const name = `${sharps} ${key?.mode}`;
    if (!key || !(sharps >= -7) || name === before) return [];
    before = name;
    const scale = key.mode === 'minor' ? 1 : 0;
    return [
      { at: tickOf(starts[index] as Fraction), order: 0, ...dated({ meta: true, type: 'keySignature', key: sharps, scale }) },
    ];
  });
}

function meters({ bars }: ScenePassage): readonly Event[] {
  const starts = barStarts(bars);
  let before: string | undefined;
  return bars.flatMap(({ meter }, index) => {
    if (meter === undefined || meter === before) return [];
    before = meter;
    const { count: numerator, unit: denominator } = sceneMeter(meter);
    return [
      {
        at: tickOf(starts[index] as Fraction),
        order: 0,
        ...dated({ meta: true, type: 'timeSignature', numerator, denominator, metronome: 24, thirtyseconds: 8 }),
      },
    ];
  });
}

/** From seconds of the passage to ticks. Its events are the fixed points, so what begins or ends with one does so exactly. */
function tickClock(passage: ScenePassage): (seconds: number) => number {
  const points = clockPoints(passage);
  const end = tickOf(points.at(-1)?.written ?? new Fraction(0));
  return (seconds) => {
    let low = 0;
    let high = points.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((points[middle] as ClockPoint).seconds < seconds - 1e-6) low = middle + 1;
      else high = middle;
    }
    const [before, point] = [points[low - 1], points[low]];
    if (!point) return end;
    const at = tickOf(point.written);
    // Within a note, as a stroke of a tremolo or the end of a short note is, time goes evenly.
    if (!before || point.seconds - seconds < 1e-6 || point.seconds <= before.seconds) return at;
    const from = tickOf(before.written);
    return from + Math.round(((at - from) * (seconds - before.seconds)) / (point.seconds - before.seconds));
  };
}

function tickOf(at: Fraction): number {
  return Math.round(at.valueOf() * 4 * QUARTER);
}

/** Sorted by time, ends before beginnings, each event with the time since the one before it. */
function inOrder(events: readonly Event[], end: number): MidiEvent[] {
  let before = 0;
  const last = Math.max(end, ...events.map(({ at }) => at));
  const closing: Event = { at: last, order: 9, ...dated({ meta: true, type: 'endOfTrack' }) };
  return [...events, closing]
    .sort((a, b) => a.at - b.at || a.order - b.order)
    .map(({ at, order: _, ...event }) => {
      const deltaTime = at - before;
      before = at;
      return { ...event, deltaTime } as MidiEvent;
    });
}

/** An event whose time is still to be filled in. */
function dated(event: Undated<MidiEvent>): MidiEvent {
  return { deltaTime: 0, ...event } as MidiEvent;
}

/** Text in a MIDI file is bytes without a declared encoding: letters beyond ASCII lose their marks or become question marks. */
function ascii(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^ -~]/g, '?')
    .slice(0, 120);
}
