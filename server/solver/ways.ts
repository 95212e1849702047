import type { Finger, TouchInterval } from '../../grammar/tree';
import { THUMB_FROM } from '../hand/constants';
import { stoppedTolerance } from '../hand/intonation';
import type { Instrument, InstrumentString } from '../instrument/instrument';
import {
  ARTIFICIAL_NODES,
  feelsLike,
  fundamentalPitch,
  NODES,
  partialPitch,
  partialSemitones,
  touchInterval,
  touchPlace,
} from '../instrument/nodes';
import { semitonePlace, stopPlace } from '../instrument/places';
import { stiffnessCents } from '../instrument/stiffness';
import { tolerance } from '../instrument/tolerance';
import { type Pitch, semitone, transposed } from '../music/pitch';
import { cents, frequency } from '../music/temperament';
import type { Asked, NoteSpec, Setup } from '../passage/passage';
import type { Way } from './way';

const INTERVALS = Object.keys(ARTIFICIAL_NODES) as readonly TouchInterval[];

/** White-key steps and semitones from stopped to touched note, by the interval between the fingers. */
const TOUCH_STEPS: Readonly<Record<TouchInterval, readonly [steps: number, semitones: number]>> = {
  'minor-third': [2, 3],
  third: [2, 4],
  fourth: [3, 5],
  fifth: [4, 7],
  sixth: [5, 9],
  octave: [7, 12],
};

/** Partials that belong to no temperament (7 is 31 cents flat): nobody wants one who hasn't asked for a natural harmonic there. */
const OFF_PITCH: ReadonlySet<number> = new Set([7, 11, 13]);

/** A way with its fingers still 0: string, node and place, before it is known which fingers take it. */
type Bare = Way;

/**
 * Every way of playing one note, with every choice of fingers, hints not yet looked at and the hand's
 * reach not yet asked. A harmonic with no tolerance left is among them with `tolerance: 0`, so that it
 * can be told why it is refused.
 */
export function waysOf(note: NoteSpec, setup: Setup): readonly Way[] {
  return bareWays(note, setup).flatMap((way) => fingered(way, setup.instrument));
}

function bareWays(note: NoteSpec, setup: Setup): Bare[] {
  const { instrument } = setup;
  const ways: Bare[] = [];
  for (const [index, string] of instrument.strings.entries()) {
    const at = { index, string, setup };
    if (note.asked.kind === 'sounding') {
      const pitch = note.asked.pitch;
      const named = note.pins.manner === 'natural' || note.pins.node !== undefined;
      if (note.harmonic !== 'must') ways.push(...open(at, pitch), ...stopped(at, pitch));
      if (note.harmonic !== 'no') {
        const sounds = (n: number) => semitone(string.pitch) + partialSemitones(n) === semitone(pitch);
        ways.push(...naturals(at, (n) => sounds(n) && (named || !OFF_PITCH.has(n)), pitch));
        for (const interval of INTERVALS) ways.push(...artificialSounding(at, pitch, interval));
      }
    } else ways.push(...printed(at, note.asked));
  }
  return ways;
}

interface At {
  readonly index: number;
  readonly string: InstrumentString;
  readonly setup: Setup;
}

function printed(at: At, asked: Exclude<Asked, { kind: 'sounding' }>): Bare[] {
  if (asked.kind === 'diamond') {
    const apart = semitone(asked.touch) - semitone(at.string.pitch);
    const { sounding } = asked;
    return naturals(
      at,
      (n, k) =>
        feelsLike(k, n).semitones === apart && (!sounding || semitone(partialPitch(at.string.pitch, n)) === semitone(sounding)),
      sounding,
    );
  }
  const interval = touchInterval(asked.stop, asked.touch);
  if (!interval) return [];
  // On the open string of that name the stopping finger is the nut.
  if (semitone(asked.stop) === semitone(at.string.pitch)) {
    const node = ARTIFICIAL_NODES[interval];
    return naturals(at, (n, k) => n === node.n && k === node.k);
  }
  return artificial(at, asked.stop, interval);
}

function open(at: At, pitch: Pitch): Bare[] {
  if (semitone(at.string.pitch) !== semitone(pitch)) return [];
  return [{ ...heard(at, at.string.hz, pitch), kind: 'open', partial: 1, stiffness: 0, length: at.setup.instrument.length }];
}

function stopped(at: At, pitch: Pitch): Bare[] {
  const hz = frequency(pitch, at.setup.temperament, at.setup.a4);
  const stop = stopAt(at, pitch, hz);
  if (!stop) return [];
  const length = at.setup.instrument.length - stop.mm;
  return [
    {
      ...heard(at, hz, pitch),
      kind: 'stopped',
      partial: 1,
      stop,
      stiffness: 0,
      length,
      tolerance: stoppedTolerance(at.setup.hand.skill, length),
    },
  ];
}

function naturals(at: At, wanted: (n: number, k: number) => boolean, pitch?: Pitch): Bare[] {
  const { length } = at.setup.instrument;
  return NODES.filter(({ n, k }) => wanted(n, k)).map(({ n, k }) => {
    const stiffness = stiffnessCents(at.string.inharmonicity, length, length, n);
    return {
      ...heard(at, at.string.hz * n * 2 ** (stiffness / 1200), pitch ?? partialPitch(at.string.pitch, n)),
      kind: 'natural',
      partial: n,
      touch: {
        pitch: touchedPitch(at.string.pitch, feelsLike(k, n).semitones),
        finger: 0,
        mm: touchPlace(0, length, k, n),
        k,
        n,
      },
      stiffness,
      length,
      tolerance: tolerance(length, k, n),
    };
  });
}

function artificialSounding(at: At, pitch: Pitch, interval: TouchInterval): Bare[] {
  const { n } = ARTIFICIAL_NODES[interval];
  return artificial(at, fundamentalPitch(pitch, n), interval, pitch);
}

function artificial(at: At, pitch: Pitch, interval: TouchInterval, asked?: Pitch): Bare[] {
  const { k, n } = ARTIFICIAL_NODES[interval];
  const { instrument, temperament, a4 } = at.setup;
  const sounding = asked ?? partialPitch(pitch, n);
  const hz = frequency(sounding, temperament, a4);
  const stop = stopAt(at, pitch, fundamental(at, hz, n));
  if (!stop) return [];
  const length = instrument.length - stop.mm;
  return [
    {
      ...heard(at, hz, sounding),
      kind: 'artificial',
      partial: n,
      interval,
      stop,
      touch: { pitch: transposed(pitch, ...TOUCH_STEPS[interval]), finger: 0, mm: touchPlace(stop.mm, length, k, n), k, n },
      stiffness: stiffnessCents(at.string.inharmonicity, instrument.length, length, n),
      length,
      tolerance: tolerance(length, k, n),
    },
  ];
}

/**
 * Hz to which the string must be stopped for its partial `n` to sound `hz`. The shorter the string, the sharper stiffness makes
 * the partial; a few rounds settle it to less than a thousandth of a cent.
 */
function fundamental({ string, setup }: At, hz: number, n: number): number {
  const { length } = setup.instrument;
  let stopped = hz / n;
  for (let round = 0; round < 4; round++) {
    const sharp = stiffnessCents(string.inharmonicity, length, (length * string.hz) / stopped, n);
    stopped = hz / n / 2 ** (sharp / 1200);
  }
  return stopped;
}

/**
 * Where a string is stopped for `hz`, written as a pitch; undefined where that is not on the fingerboard. The finger is filled
 * in later.
 */
function stopAt(at: At, pitch: Pitch, hz: number): Way['stop'] {
  if (semitone(pitch) <= semitone(at.string.pitch)) return undefined;
  const { instrument } = at.setup;
  const mm = stopPlace(instrument.length, at.string.hz, hz);
  return mm > 0 && mm <= instrument.fingerboard ? { pitch, finger: 0, mm } : undefined;
}

/** How a place `semitones` above an open string is written, a diamond on it too. */
function touchedPitch(open: Pitch, semitones: number): Pitch {
  const octaves = Math.floor(semitones / 12);
  const [steps, rest] = DEGREES[semitones % 12] as readonly [number, number];
  return transposed(open, steps + 7 * octaves, rest + 12 * octaves);
}

const DEGREES: readonly (readonly [number, number])[] = [
  [0, 0],
  [1, 1],
  [1, 2],
  [2, 3],
  [2, 4],
  [3, 5],
  [3, 6],
  [4, 7],
  [5, 8],
  [5, 9],
  [6, 10],
  [6, 11],
];

function heard(at: At, hz: number, sounding: Pitch): Pick<Way, 'string' | 'stringName' | 'sounding' | 'hz' | 'cents'> {
  const equal = at.setup.a4 * 2 ** ((semitone(sounding) - 69) / 12);
  return { string: at.index, stringName: at.string.name, sounding, hz, cents: cents(hz / equal) };
}

/** All choices of fingers for a way; which of them a hand can take is asked later. */
function fingered(way: Bare, instrument: Instrument): Way[] {
  const { stop, touch } = way;
  if (stop && touch) {
    return stoppers(instrument, stop.mm).flatMap((first) =>
      FINGERS.filter((second) => first === 'T' || second > first).map((second) => ({
        ...way,
        stop: { ...stop, finger: first },
        touch: { ...touch, finger: second },
      })),
    );
  }
  if (stop) return stoppers(instrument, stop.mm).map((finger) => ({ ...way, stop: { ...stop, finger } }));
  if (touch) return stoppers(instrument, touch.mm).map((finger) => ({ ...way, touch: { ...touch, finger } }));
  return [way];
}

const FINGERS: readonly (1 | 2 | 3 | 4)[] = [1, 2, 3, 4];

/** The fingers that can be first on the string at a place: the thumb only where the hand is off the neck. */
function stoppers(instrument: Instrument, mm: number): readonly Finger[] {
  const thumb = instrument.thumb && mm >= semitonePlace(instrument.length, THUMB_FROM) - 1;
  return thumb ? ['T', ...FINGERS] : FINGERS;
}
