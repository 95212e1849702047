import fc from 'fast-check';
import Fraction from 'fraction.js';
import { parse } from '../../grammar/parse';
import { type Pitch, pitchName, spell, transposed } from '../../server/music/pitch';
import type { Passage } from '../../server/passage/passage';
import { resolve } from '../../server/passage/resolve';
import { sounding } from '../../server/passage/sounding';
// from '../../server/passage/resolve';

/** The passages of a text, which must have no problems but those of notes that can't be asked for. */
export function passagesOf(text: string): readonly Passage[] {
  return resolve(parse(text)).passages;
}

export function passageOf(text: string): Passage {
  const [passage] = passagesOf(text);
  if (!passage) throw new Error(`No passage in: ${text}`);
  return passage;
}

interface Sound {
  readonly text: string;
  readonly hints: string;
}
interface Piece {
  readonly length: readonly [number, number];
  readonly sounds: readonly Sound[];
  readonly tied: boolean;
  readonly joins: boolean;
  readonly stroke: 'slur' | 'up' | 'down' | undefined;
  readonly slide: boolean;
  readonly dynamic: string | undefined;
}

const pitch = fc.integer({ min: 55, max: 88 }).chain((n) => fc.constantFrom<Pitch>(spell(n), spell(n, true)));
const string = fc.constantFrom('I', 'II', 'III', 'IV');
const finger = fc.constantFrom('1', '2', '3', '4');
const hints = (...kinds: fc.Arbitrary<string>[]) =>
  fc.tuple(...kinds.map((kind) => fc.option(kind, { nil: '' }))).map((found) => {
    const words = found.filter((word) => word !== '');
    return words.length > 0 ? ` [${words.join(' ')}]` : '';
  });

const plain = fc.record({
  text: pitch.map(pitchName),
  hints: hints(string, finger, fc.constantFrom('stopped', '3rd', '12th')),
});
const circle = fc.record({
  text: pitch.map((p) => `${pitchName(transposed(p, 7, 12))}o`),
  hints: hints(
    string,
    fc.oneof(finger, fc.constantFrom('1-4', '1-3')),
    fc.constantFrom('natural', 'artificial', 'at 1/3', 'fourth', '5th'),
  ),
});
const INTERVALS: readonly (readonly [number, number])[] = [
  [2, 3],
  [2, 4],
  [3, 5],
  [4, 7],
  [7, 12],
];
const artificial = fc.record({
  text: fc
    .tuple(pitch, fc.constantFrom(...INTERVALS))
    .map(([p, [steps, semitones]]) => `${pitchName(p)}<>${pitchName(transposed(p, steps, semitones))}`),
  hints: hints(string, fc.constantFrom('1-4', '1-3', '2-4'), fc.constantFrom('artificial', '3rd')),
});
const diamond = fc.record({ text: fc.constantFrom('<>A4', '<>D5', '<>G4', '<>B4', '<>E5'), hints: hints(string, finger) });
const sound = fc.oneof({ weight: 4, arbitrary: plain }, { weight: 2, arbitrary: circle }, artificial, diamond);

const length = fc.constantFrom<readonly [number, number]>(
  [1, 4],
  [1, 8],
  [1, 16],
  [1, 12],
  [3, 16],
  [3, 8],
  [5, 16],
  [1, 20],
  [1, 24],
  [7, 8],
);
const piece: fc.Arbitrary<Piece> = fc.record({
  length,
  sounds: fc.oneof(
    { weight: 1, arbitrary: fc.constant([]) },
    { weight: 5, arbitrary: fc.tuple(sound) },
    { weight: 2, arbitrary: fc.tuple(sound, sound).filter(([a, b]) => a.text.replace('o', '') !== b.text.replace('o', '')) },
  ),
  tied: fc.boolean(),
  joins: fc.boolean(),
  stroke: fc.constantFrom('slur', 'up', 'down', undefined, undefined),
  slide: fc.integer({ min: 0, max: 9 }).map((n) => n === 0),
  dynamic: fc.option(fc.constantFrom('pp', 'p', 'mp', 'mf', 'f', 'ff'), { nil: undefined, freq: 5 }),
});

interface Sketch {
  readonly head: readonly string[];
  readonly bars: readonly (readonly Piece[])[];
  readonly close: readonly string[];
  readonly tempo: readonly (string | undefined)[];
  readonly upbeat: boolean;
}

const sketch: fc.Arbitrary<Sketch> = fc.record({
  head: fc
    .tuple(
      fc.constantFrom(
        'instrument: violin',
        'instrument: violin 3/4',
        'instrument: viola',
        'instrument: cello',
        'tuning: A3 E4 A4 E5',
        'tuning: equal',
      ),
      fc.constantFrom('hand: medium', 'hand: small', 'hand: 1-2 50, 1-3 74, 1-4 100'),
      fc.constantFrom('pitch: A4 = 440', 'pitch: A4 = 442.5'),
      fc.constantFrom('temperament: equal', 'temperament: pythagorean', 'temperament: just Bb'),
      fc.constantFrom('harmonics: marked', 'harmonics: all', 'harmonics: allowed'),
      fc.constantFrom('passage: Lighthouse study', 'passage: Ebb & <flow> "No. 2"'),
      fc.constantFrom('key: D major', 'key: Bb minor', 'key: F# minor'),
      fc.constantFrom('meter: 4/4', 'meter: 6/8', 'meter: 5/16', ''),
      fc.constantFrom('tempo: 1/4 = 96', 'tempo: 3/8 = 60.5', 'tempo: 1/12 = 90'),
      fc.constantFrom('> Full bows', ''),
    )
    .map((lines) => lines.filter((line) => line !== '')),
  bars: fc.array(fc.array(piece, { minLength: 1, maxLength: 6 }), { minLength: 1, maxLength: 5 }),
  close: fc.array(fc.constantFrom('|', '|', '||', ':|', '|:'), { minLength: 5, maxLength: 5 }),
  tempo: fc.array(
    fc.option(fc.constantFrom('tempo: 1/4 = 72', 'tempo: 1/2. = 40', '> Lift the touching finger'), { nil: undefined, freq: 2 }),
    {
      minLength: 5,
      maxLength: 5,
    },
  ),
  upbeat: fc.boolean(),
});

/** Texts of whole files with one passage, without a mistake, with everything in them that the notation has but motifs. */
export const passageText: fc.Arbitrary<string> = sketch.map(textOf).filter((text) => resolve(parse(text)).problems.length === 0);

function textOf({ head, bars, close, tempo, upbeat }: Sketch): string {
  const meter = /^meter: (\d+)\/(\d+)$/m.exec(head.join('\n'));
  const full = meter ? new Fraction(Number(meter[1]), Number(meter[2])) : undefined;
  let music = '';
  let open = false;
  let held: readonly Sound[] = [];
  const fittings = bars.map((pieces) => {
    let filled = new Fraction(0);
    const fitting = pieces.filter((p) => {
      const end = filled.add(new Fraction(...p.length));
      if (full && end.compare(full) > 0) return false;
      filled = end;
      return true;
    });
    return { fitting, filled };
  });
  for (const [i, { fitting, filled }] of fittings.entries()) {
    if (i > 0 && !open && tempo[i] !== undefined) music += `\n${tempo[i]}\n`;
    const missing = full && !(upbeat && i === 0 && fitting.length > 0) ? full.sub(filled) : new Fraction(0);
    for (const [j, p] of fitting.entries()) {
      const final = i === bars.length - 1 && j === fitting.length - 1 && missing.equals(0);
      const sounds = held.length > 0 ? held.map((s) => ({ ...s, hints: '' })) : p.sounds;
      const nextIsNote = j < fitting.length - 1 || (missing.equals(0) && (fittings[i + 1]?.fitting.length ?? 0) > 0);
      const tied = p.tied && sounds.length > 0 && nextIsNote && !final;
      if (p.dynamic !== undefined && held.length === 0) music += `${p.dynamic} `;
      if (!open && p.stroke !== undefined && sounds.length > 0 && held.length === 0) {
        music += `${p.stroke}(`;
        open = true;
      }
      music += `${p.length[0]}/${p.length[1]} `;
      const slide = p.slide && held.length === 0 && sounds.length > 0 ? 'slide ' : '';
      music += sounds.length === 0 ? 'rest' : slide + sounds.map((s) => `${s.text}${tied ? '_' : ''}${s.hints}`).join('+');
      held = tied ? sounds : [];
      const nextBreaks =
        j === fitting.length - 1 && (missing.compare(0) > 0 || i === bars.length - 1 || tempo[i + 1] !== undefined);
      if (open && (!p.joins || nextBreaks)) {
        music += ')';
        open = false;
      }
      music += ' ';
    }
    if (missing.compare(0) > 0) music += `${missing.n}/${missing.d} rest `;
    if (!(full && fitting.length === 0 && missing.equals(0))) music += `${close[i]} `;
  }
  return `${head.join('\n')}\n${music}\n`;
}

/**
 * What a passage asks for, as plain data: notes that are wholly held on are one sound, since no note
 * value is as long as some durations. Without `fingering` hints don't count, and without `written` only what sounds does.
 */
export function demands(passage: Passage, { fingering = true, written = true } = {}): unknown {
  const { setup, key, title, bars, instructions, events } = passage;
  const unique = (asked: Passage['events'][number]['spec']['notes'][number]['asked']) =>
    asked.kind === 'diamond' ? { kind: 'diamond', touch: pitchName(asked.touch) } : asked;
  const sounds: Record<string, unknown>[] = [];
  let last: { duration: Fraction; slurred: boolean } | undefined;
  for (const [i, { spec, bar, beat, duration, tempo, bow }] of events.entries()) {
    if (spec.notes.length === 0) continue;
    const before = events[i - 1]?.spec.notes.length;
    if (last && before === spec.notes.length && spec.held.length === before) {
      last.duration = last.duration.add(duration);
      last.slurred = spec.slurred;
      continue;
    }
    const sound = {
      bar,
      beat: beat.toFraction(),
      duration,
      quarters: Math.round(tempo.beat.valueOf() * tempo.bpm * 4 * 1000) / 1000,
      bow,
      slurred: spec.slurred,
      dynamic: spec.dynamic,
      slide: spec.slide,
      held: spec.held.map(String).sort(),
      notes: spec.notes.map(({ asked, harmonic, pins }) =>
        written
          ? { asked: unique(asked), harmonic, ...(fingering && { pins }) }
          : [...new Set(sounding(asked, setup.instrument).map((s) => pitchName(s.pitch)))],
      ),
    };
    sounds.push(sound);
    last = sound;
  }
  return {
    title,
    key,
    a4: setup.a4,
    temperament: setup.temperament,
    instrument: setup.instrument.name,
    strings: setup.instrument.strings.map((s) => s.hz.toFixed(4)),
    hand: Object.fromEntries(Object.entries(setup.hand.reaches).map(([pair, reach]) => [pair, Math.round(reach.most * 10)])),
    instructions,
    bars: bars.map(({ number, length, meter, open, close }, i) => ({
      number,
      length: length.toFraction(),
      meter,
      repeat: [open, close === ':|' ? close : ''],
      double: close === '||',
      last: i === bars.length - 1,
    })),
    sounds: sounds.map((s) => ({ ...s, duration: (s.duration as Fraction).toFraction() })),
  };
}
