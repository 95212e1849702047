import type { EventSpec, Setup } from '../passage/passage';
import { sounding } from '../passage/sounding';
import { entry } from './link';
import { fingeringOf } from './read';
import type { Fingering } from './solution';
import { statesOf } from './states';
import { alone } from './surroundings';

/** The spec without its hints. */
export function unpinned(spec: EventSpec): EventSpec {
  return { ...spec, notes: spec.notes.map((one) => ({ ...one, pins: {} })) };
}

/** The cheapest few fingerings of an event by itself, in a key of so many sharps, that sound the same pitches, whatever its hints and printed forms say. */
export function otherwise(spec: EventSpec, setup: Setup, fifths: number): readonly Fingering[] {
  const known = memory.get(spec);
  if (known?.setup === setup && known.fifths === fifths) return known.found;
  const found = search(bySound(unpinned(spec), setup), setup, fifths);
  memory.set(spec, { setup, fifths, found });
  return found;
}

const MOST = 3;
/** Equal demands are one object, and a passage makes the same one many times. */
const memory = new WeakMap<EventSpec, { readonly setup: Setup; readonly fifths: number; readonly found: readonly Fingering[] }>();

function search(spec: EventSpec, setup: Setup, fifths: number): readonly Fingering[] {
  const states = statesOf(spec, setup, { ...alone(spec.notes, setup.instrument), fifths });
  const costs = entry(states);
  const seen = new Set<number>();
  return [...costs.keys()]
    .sort((a, b) => costs[a]! - costs[b]! || a - b)
    .filter((state) => {
      const shape = states.shape[state]!;
      if (seen.has(shape) || seen.size >= MOST) return false;
      seen.add(shape);
      return true;
    })
    .map((state) => fingeringOf(states, state));
}

/** The same sounding pitches, however they can be had: printed forms are heard instead of read. */
function bySound(spec: EventSpec, setup: Setup): EventSpec {
  return {
    ...spec,
    notes: spec.notes.map((note) => {
      const [heard] = sounding(note.asked, setup.instrument);
      return heard ? { ...note, asked: { kind: 'sounding', pitch: heard.pitch } } : note;
    }),
  };
}
