import type { EventSpec, NoteSpec, Passage, Pins, Setup } from '../passage/passage';
import { layoutOf } from './layout';
import { otherwise, unpinned } from './otherwise';
import { meetsPins, PIN_NAMES } from './pins';
import { shapesOf } from './shape-set';
import type { Relaxation, Unplayable, UnplayableReason } from './solution';
import { waysOf } from './ways';

/** Why an event has no fingering, and what would free it. Looks only at the event itself, in a key of so many sharps (flats negative). */
export function unplayableOf(event: number, { events, setup }: Pick<Passage, 'events' | 'setup'>, fifths: number): Unplayable {
  const { spec } = events[event]!;
  let known = memory.get(spec);
  if (known?.setup !== setup) {
    known = { setup, byKey: new Map() };
    memory.set(spec, known);
  }
  let found = known.byKey.get(fifths);
  if (!found) {
    const reason = reasonOf(spec, setup, fifths);
    found = { reason, relaxations: relaxationsOf(reason, spec, setup, fifths) };
    known.byKey.set(fifths, found);
  }
  return { event, ...found };
}

/** Equal demands are one object, and every edit asks again about all that can't be played: in each key that they are found in. */
const memory = new WeakMap<EventSpec, { readonly setup: Setup; readonly byKey: Map<number, Omit<Unplayable, 'event'>> }>();

function reasonOf(spec: EventSpec, setup: Setup, fifths: number): UnplayableReason {
  for (const [index, note] of spec.notes.entries()) {
    const reason = noteReason(index, note, setup);
    if (reason) return reason;
  }
  const { shapes, obstacles } = shapesOf(spec.notes, setup);
  if (shapes.length === 0) {
    const [least] = obstacles
      .flatMap((one) => (one.kind === 'stretch' ? [one] : []))
      .sort((a, b) => a.asked - a.reach - (b.asked - b.reach));
    if (least) return least;
  }
  const [one, two] = spec.notes.map(({ pins }) => pins.string);
  if (one && two && Math.abs(one - two) !== 1) return { kind: one === two ? 'same-string' : 'not-neighbours' };
  const freeing = freeingPins(spec, setup, fifths);
  if (freeing) return { kind: 'hints', ...freeing };
  const kinds = new Set(obstacles.map((one) => one.kind));
  return { kind: kinds.has('not-neighbours') ? 'not-neighbours' : kinds.has('same-string') ? 'same-string' : 'fingers' };
}

/** Why one note by itself can't be played: its pitch, or its hints. */
function noteReason(index: number, note: NoteSpec, setup: Setup): UnplayableReason | undefined {
  const ways = waysOf(note, setup);
  const speaking = ways.filter((way) => way.tolerance !== 0);
  if (speaking.length === 0) {
    const stopped = note.asked.kind === 'sounding' && waysOf({ ...note, harmonic: 'no' }, setup).length > 0;
    return { kind: ways.length > 0 || stopped ? 'no-harmonic' : 'out-of-range', note: index };
  }
  if (speaking.some((way) => meetsPins(way, note.pins))) return undefined;
  const present = PIN_NAMES.filter((name) => note.pins[name] !== undefined);
  const freeing = present.filter((name) => speaking.some((way) => meetsPins(way, note.pins, name)));
  return { kind: 'hints', note: index, hints: freeing.length ? freeing : present };
}

/** The hints of one note that, each given up alone, free the whole event. */
function freeingPins(spec: EventSpec, setup: Setup, fifths: number): { note: number; hints: (keyof Pins)[] } | undefined {
  for (const [note, { pins }] of spec.notes.entries()) {
    const names = Object.keys(pins) as (keyof Pins)[];
    const hints = names.filter((name) => playable(withNote(spec, note, { pins: without(pins, name) }), setup, fifths));
    if (hints.length) return { note, hints };
  }
  const pinned = spec.notes.findIndex(({ pins }) => Object.keys(pins).length > 0);
  if (pinned < 0 || !playable(unpinned(spec), setup, fifths)) return undefined;
  return { note: pinned, hints: Object.keys(spec.notes[pinned]!.pins) as (keyof Pins)[] };
}

function without(pins: Pins, name: keyof Pins): Pins {
  const { [name]: _, ...rest } = pins;
  return rest;
}

function withNote(spec: EventSpec, index: number, change: Partial<NoteSpec>): EventSpec {
  return { ...spec, notes: spec.notes.map((one, at) => (at === index ? { ...one, ...change } : one)) };
}

function relaxationsOf(reason: UnplayableReason, spec: EventSpec, setup: Setup, fifths: number): Relaxation[] {
  const others = otherwise(spec, setup, fifths).map((fingering): Relaxation => ({ kind: 'fingering', fingering }));
  switch (reason.kind) {
    case 'stretch':
      return [...others, { kind: 'reach', fingers: reason.fingers, reach: Math.ceil(reason.asked) }];
    case 'out-of-range':
    case 'no-harmonic':
      return [...others, ...madeOtherwise(reason.note, spec, setup, fifths), ...octaves(reason.note, spec, setup, fifths)];
    default:
      return others;
  }
}

/** Stopped instead of a harmonic, or as a harmonic where it lies past the fingerboard. */
function madeOtherwise(index: number, spec: EventSpec, setup: Setup, fifths: number): Relaxation[] {
  const { asked, harmonic } = spec.notes[index]!;
  if (asked.kind !== 'sounding') return [];
  const other = harmonic === 'must' ? 'no' : 'must';
  if (!playable(freely(spec, index, { harmonic: other }), setup, fifths)) return [];
  return [{ kind: other === 'no' ? 'stopped' : 'harmonic', note: index }];
}

/** Octaves up or down, nearest first, at which the note can be played as asked. */
function octaves(index: number, spec: EventSpec, setup: Setup, fifths: number): Relaxation[] {
  const { asked } = spec.notes[index]!;
  if (asked.kind !== 'sounding') return [];
  const by = [-1, 1, -2, 2, -3, 3].find((octave) => {
    const pitch = { ...asked.pitch, octave: asked.pitch.octave + octave };
    return playable(freely(spec, index, { asked: { kind: 'sounding', pitch } }), setup, fifths);
  });
  return by === undefined ? [] : [{ kind: 'octaves', note: index, by }];
}

/** An event with one note changed and free of hints. */
function freely(spec: EventSpec, index: number, change: Partial<NoteSpec>): EventSpec {
  return withNote(spec, index, { ...change, pins: {} });
}

function playable({ notes }: EventSpec, setup: Setup, fifths: number): boolean {
  return layoutOf(notes, setup, fifths).size > 0;
}
