import type { EventSpec, Passage, Setup } from '../passage/passage';
import { type Layout, layoutOf } from './layout';
import { type Link, LinkMaker } from './link';
import { type StateSet, statesOf } from './states';

/** Where the passes get their tables from. */
export interface Tables {
  /** The states of an event: one and the same object for one and the same demand. */
  states(passage: Passage, event: number): StateSet;
  /** The step between two events. Good until the next call. */
  link(from: StateSet, to: StateSet): Link;
}

/** Layouts that are remembered by their notes for the next spec that has the same. */
const MOST_LAYOUTS = 4096;

/**
 * States live as long as the demand (spec and setup) they answer, layouts are shared by all demands for
 * the same notes.
 */
export function createTables(): Tables {
  const bySetup = new WeakMap<Setup, { layouts: Map<string, Layout>; sets: WeakMap<EventSpec, StateSet> }>();
  const links = new LinkMaker();

  function made(spec: EventSpec, setup: Setup, layouts: Map<string, Layout>): StateSet {
    const key = JSON.stringify(spec.notes);
    let layout = layouts.get(key);
    if (!layout) {
      if (layouts.size >= MOST_LAYOUTS) layouts.clear();
      layout = layoutOf(spec.notes, setup);
      layouts.set(key, layout);
    }
    return statesOf(spec, setup, layout);
  }

  return {
    states({ setup, events }, event) {
      const { spec } = events[event]!;
      let known = bySetup.get(setup);
      if (!known) {
        known = { layouts: new Map(), sets: new WeakMap() };
        bySetup.set(setup, known);
      }
      let states = known.sets.get(spec);
      if (!states) {
        states = made(spec, setup, known.layouts);
        known.sets.set(spec, states);
      }
      return states;
    },
    link: (from, to) => links.link(from, to),
  };
}
