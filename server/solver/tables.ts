import type { EventSpec, Passage, Setup } from '../passage/passage';
import { type Layout, layoutOf } from './layout';
import { type Link, LinkMaker } from './link';
import { type StateSet, statesOf } from './states';
import { surroundingsOf } from './surroundings';

/** Where the passes get their tables from. */
export interface Tables {
  /** The states of an event: one and the same object for one and the same demand. */
  states(passage: Passage, event: number): StateSet;
  /** The step between two events. Good until the next call. */
  link(from: StateSet, to: StateSet): Link;
}

/** Layouts that are remembered by their notes for the next spec that has the same. */
const MOST_LAYOUTS = 4096;

/** Surroundings of one demand whose states are remembered. */
const MOST_SETS = 256;

/**
 * States live as long as the demand (spec and setup) they answer, one set for each kind of surroundings it stands in; layouts are
 * shared by all demands for the same notes in the same key.
 */
export function createTables(): Tables {
  const bySetup = new WeakMap<Setup, { layouts: Map<string, Layout>; sets: WeakMap<EventSpec, Map<string, StateSet>> }>();
  const links = new LinkMaker();

  return {
    states(passage, event) {
      const { setup, events } = passage;
      const { spec } = events[event]!;
      let known = bySetup.get(setup);
      if (!known) {
        known = { layouts: new Map(), sets: new WeakMap() };
        bySetup.set(setup, known);
      }
      let sets = known.sets.get(spec);
      if (!sets) {
        sets = new Map();
        known.sets.set(spec, sets);
      }
      const around = surroundingsOf(passage, event);
      let states = sets.get(around.key);
      if (!states) {
        if (sets.size >= MOST_SETS) sets.clear();
        states = statesOf(spec, setup, around, layout(spec, setup, around.fifths, known.layouts));
        sets.set(around.key, states);
      }
      return states;
    },
    link: (from, to) => links.link(from, to),
  };

  function layout(spec: EventSpec, setup: Setup, fifths: number, layouts: Map<string, Layout>): Layout {
    const key = `${fifths} ${JSON.stringify(spec.notes)}`;
    let made = layouts.get(key);
    if (!made) {
      if (layouts.size >= MOST_LAYOUTS) layouts.clear();
      made = layoutOf(spec.notes, setup, fifths);
      layouts.set(key, made);
    }
    return made;
  }
}
