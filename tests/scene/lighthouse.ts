import Fraction from 'fraction.js';
import { namedHand } from '../../server/hand/hands';
import { buildInstrument } from '../../server/instrument/build';
import type { Family } from '../../server/instrument/instrument';
import { type Pitch, parsePitch } from '../../server/music/pitch';
import { one } from '../../server/music/time';
import type { Bar, NoteSpec, Passage, PassageEvent, Setup } from '../../server/passage/passage';
import type { SceneAlternative, ScenePassage } from '../../server/protocol/scene';
import { sceneAlternative, scenePassage } from '../../server/scene/scene';
import type { Fingering, Solution } from '../../server/solver/solution';
import type { Way } from '../../server/solver/way';
import { waysOf } from '../../server/solver/ways';

/** One note as these tests say it: what is asked, and which way of playing it the made-up solver picks. */
export interface Note {
  readonly ask: string;
  readonly pick?: (way: Way) => boolean;
}

export interface Event {
  readonly notes: readonly Note[];
  readonly duration?: string;
  readonly rest?: string;
  readonly slurred?: boolean;
  readonly bow?: 'up' | 'down';
  readonly dynamic?: PassageEvent['spec']['dynamic'];
  readonly hand?: { readonly mm: number; readonly position: number };
  readonly barred?: boolean;
  readonly tied?: boolean;
  readonly unplayable?: boolean;
}

const pitch = (name: string): Pitch => parsePitch(name) as Pitch;

function noteSpec(ask: string): NoteSpec {
  const [stop, touch] = ask.split('<>');
  if (touch !== undefined) {
    const asked = stop
      ? ({ kind: 'artificial', stop: pitch(stop), touch: pitch(touch) } as const)
      : ({ kind: 'diamond', touch: pitch(touch) } as const);
    return { asked, harmonic: 'must', pins: {} };
  }
  return {
    asked: { kind: 'sounding', pitch: pitch(ask.replace(/o$/, '')) },
    harmonic: ask.endsWith('o') ? 'must' : 'no',
    pins: {},
  };
}

export function setupOf(family: Family = 'violin'): Setup {
  return {
    instrument: buildInstrument({ family, tuning: 'fifths', a4: 440 }),
    hand: namedHand('medium', family),
    temperament: { kind: 'equal' },
    a4: 440,
    key: family,
  };
}

/** A passage and a solution made by hand, so that the views are tested apart from the solver. */
export function solvedByHand(
  events: readonly Event[],
  options: { bar?: number; family?: Family; meter?: { count: number; unit: number } } = {},
): Solution {
  const setup = setupOf(options.family);
  const tempo = { beat: one(new Fraction(1, 4)), bpm: 96 };
  const wholeSeconds = (60 / tempo.bpm) * 4;
  const barLength = one(new Fraction(options.bar ?? 1));
  let at = new Fraction(0);
  const placed: PassageEvent[] = events.map((event, index) => {
    const duration = one(new Fraction(event.duration ?? '1/8'));
    const rest = new Fraction(event.rest ?? 0);
    const bar = Number(at.div(barLength).floor().valueOf());
    const beat = one(at.sub(barLength.mul(bar)).mul(4).add(1));
    at = at.add(duration).add(rest);
    return {
      spec: {
        key: String(index),
        notes: event.notes.map(({ ask }) => noteSpec(ask)),
        seconds: duration.valueOf() * wholeSeconds,
        rest: rest.valueOf() * wholeSeconds,
        slurred: event.slurred ?? false,
        dynamic: event.dynamic ?? 'mf',
        slide: false,
        held: event.tied ? [[0, 0] as const] : [],
      },
      source: { line: index, span: { start: 0, end: 4 }, notes: [] },
      bar: bar + 1,
      beat,
      duration,
      tempo,
      ...(event.bow && { bow: event.bow }),
    };
  });
  const count = (placed.at(-1)?.bar ?? 0) as number;
  const bars: Bar[] = Array.from({ length: count }, (_, index) => {
    const firstEvent = placed.findIndex(({ bar }) => bar === index + 1);
    return {
      number: index + 1,
      firstEvent,
      endEvent: placed.findLastIndex(({ bar }) => bar === index + 1) + 1,
      length: barLength,
      meter: options.meter ?? { count: 4, unit: 4 },
      close: index === count - 1 ? '||' : '|',
    };
  });
  const passage: Passage = {
    title: 'Lighthouse study',
    setup,
    events: placed,
    lines: { first: 0, end: events.length },
    bars,
    instructions: [{ bar: 1, text: 'Full bows. Lift the touching finger as soon as the note has spoken.' }],
  };
  const fingerings = placed.map((event, index) => choose(event, events[index] as Event, setup));
  const solution: Solution = {
    passage,
    events: fingerings.map(
      (fingering) =>
        fingering && {
          fingering,
          cost: 0.4,
          terms: { placement: 0.3, shift: 0.1 },
          speaks: fingering.ways.map(() => 0.97),
          chance: 0.97,
        },
    ),
    unplayables: fingerings.flatMap((fingering, event) =>
      fingering || events[event]?.notes.length === 0
        ? []
        : [{ event, reason: { kind: 'out-of-range' as const, note: 0 }, relaxations: [] }],
    ),
    cost: 0.4 * placed.length,
    clean: 0.83,
    hardest: 3,
    // Only the solver itself reads its tables, and no solver made this.
    work: undefined as never,
  };
  return solution;
}

/** Other ways to play a note of the passage, as a solver would list them. */
export function othersOf(solution: Solution, event: number): readonly SceneAlternative[] {
  const { spec } = solution.passage.events[event]!;
  return waysOf(spec.notes[0]!, solution.passage.setup)
    .filter((way) => (way.tolerance ?? 1) > 0)
    .slice(0, 4)
    .map((way, index) => {
      const fingering = { ways: [way], hand: { mm: (way.stop ?? way.touch)?.mm ?? 40, position: 3 }, barred: false };
      return sceneAlternative({ fingering, extraCost: 0.4 * (index + 1) }, index, spec);
    });
}

function choose(event: PassageEvent, made: Event, setup: Setup): Fingering | undefined {
  if (made.unplayable || event.spec.notes.length === 0) return undefined;
  const ways = event.spec.notes.map((spec, index) => {
    const all = waysOf(spec, setup);
    const way = all.find(made.notes[index]?.pick ?? (() => true));
    if (!way) throw new Error(`no such way for ${made.notes[index]?.ask}`);
    return way;
  });
  const places = ways.flatMap(({ stop, touch }) => [stop, touch].flatMap((place) => (place ? [place.mm] : [])));
  return { ways, hand: made.hand ?? { mm: Math.min(82, ...places), position: 3 }, barred: made.barred ?? false };
}

export const on = (string: string, finger?: number) => (way: Way) =>
  way.stringName === string && (finger === undefined || (way.stop ?? way.touch)?.finger === finger) && (way.tolerance ?? 1) > 0;
export const at = (string: string, k: number, n: number, finger: number) => (way: Way) =>
  way.stringName === string && way.kind === 'natural' && way.touch?.k === k && way.touch.n === n && way.touch.finger === finger;
export const over = (string: string, interval: string) => (way: Way) =>
  way.stringName === string &&
  way.kind === 'artificial' &&
  way.interval === interval &&
  way.stop?.finger === 1 &&
  way.touch?.finger === 4;

/** Every kind of mark in a few bars. */
export const LIGHTHOUSE: readonly Event[] = [
  { notes: [{ ask: 'D5', pick: on('II', 3) }], bow: 'down', hand: { mm: 36, position: 1 } },
  { notes: [{ ask: 'A4', pick: (way) => way.kind === 'open' }], hand: { mm: 36, position: 1 } },
  { notes: [{ ask: 'D6o', pick: at('III', 1, 4, 1) }], slurred: true, bow: 'up' },
  { notes: [{ ask: 'E6o', pick: at('II', 1, 3, 3) }], slurred: true },
  { notes: [{ ask: 'F#6o', pick: at('III', 2, 5, 4) }] },
  { notes: [{ ask: 'E5<>A5', pick: over('II', 'fourth') }], duration: '1/4', dynamic: 'p' },
  { notes: [{ ask: 'E6o', pick: over('III', 'fifth') }], hand: { mm: 82, position: 3 } },
  {
    notes: [
      { ask: 'A5o', pick: at('III', 1, 3, 3) },
      { ask: 'E6o', pick: at('II', 1, 3, 3) },
    ],
    duration: '1/2',
    barred: true,
  },
  { notes: [{ ask: 'G5', pick: on('I', 1) }], duration: '1/12' },
  { notes: [{ ask: 'A5', pick: on('I', 2) }], duration: '1/12' },
  { notes: [{ ask: 'B5', pick: on('I', 3) }], duration: '1/12', rest: '1/4' },
  { notes: [{ ask: 'C2' }], unplayable: true, duration: '1/4' },
];

export function lighthouse(): ScenePassage {
  return scenePassage(solvedByHand(LIGHTHOUSE));
}
