import Fraction from 'fraction.js';
import { type HandName, namedHand } from '../../server/hand/hands';
import { buildInstrument } from '../../server/instrument/build';
import type { Family } from '../../server/instrument/instrument';
import { parsePitch } from '../../server/music/pitch';
import type { Temperament } from '../../server/music/temperament';
import type { EventSpec, NoteSpec, Passage, Setup } from '../../server/passage/passage';

/** Passages for the solver's own tests, made by hand: no text, no parser. */

export function setup(options: { family?: Family; hand?: HandName; temperament?: Temperament } = {}): Setup {
  const family = options.family ?? 'violin';
  return {
    instrument: buildInstrument({ family, tuning: 'fifths', a4: 440 }),
    hand: namedHand(options.hand ?? 'medium', family),
    temperament: options.temperament ?? { kind: 'equal' },
    a4: 440,
    key: JSON.stringify(options),
  };
}

export type Shorthand = Partial<Omit<EventSpec, 'notes' | 'key'>> & { notes: readonly NoteSpec[] };

/** `D6o`, `D6`, `E5<>A5`, `<>A4`: a note in the passage language's spelling, without hints. */
export function note(text: string, pins: NoteSpec['pins'] = {}, harmonic?: NoteSpec['harmonic']): NoteSpec {
  const pitch = (name: string) => {
    const parsed = parsePitch(name);
    if (!parsed) throw new Error(`no pitch: ${name}`);
    return parsed;
  };
  const [stop, touch] = text.split('<>');
  if (touch !== undefined) {
    const asked = stop
      ? { kind: 'artificial' as const, stop: pitch(stop), touch: pitch(touch) }
      : { kind: 'diamond' as const, touch: pitch(touch) };
    return { asked, harmonic: 'must', pins };
  }
  const must = text.endsWith('o');
  return {
    asked: { kind: 'sounding', pitch: pitch(must ? text.slice(0, -1) : text) },
    harmonic: harmonic ?? (must ? 'must' : 'no'),
    pins,
  };
}

export function event(notes: readonly NoteSpec[], rest: Partial<EventSpec> = {}): EventSpec {
  const spec = { notes, seconds: 0.3125, rest: 0, slurred: false, dynamic: 'mf' as const, slide: false, held: [], ...rest };
  return { ...spec, key: JSON.stringify(spec) };
}

/** `D6o F#6o E5<>A5 A4+E5`: a line of events of one length. */
export function line(text: string, rest: Partial<EventSpec> = {}): EventSpec[] {
  return text.split(/\s+/).map((word) =>
    event(
      word.split('+').map((one) => note(one)),
      rest,
    ),
  );
}

/** `beats`: of the first event, where every event is a beat long; or of every event. */
export function passage(specs: readonly EventSpec[], made: Setup = setup(), beats: number | readonly Fraction[] = 1): Passage {
  const quarter = new Fraction(1, 4);
  return {
    title: '',
    setup: made,
    lines: { first: 0, end: 1 },
    bars: [],
    instructions: [],
    events: specs.map((spec, index) => ({
      spec,
      source: { line: 0, span: { start: index, end: index + 1 }, notes: [] },
      bar: 1,
      beat: typeof beats === 'number' ? new Fraction(index + beats) : beats[index]!,
      duration: quarter,
      tempo: { beat: quarter, bpm: 96 },
    })),
  } as unknown as Passage;
}
