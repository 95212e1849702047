import type { EventSpec, Passage, Setup } from '../passage/passage';
import { type Link, LinkTables } from './link';
import { type StateSet, statesOf } from './states';

/** Where the passes get their tables from. */
export interface Tables {
  /** The states of an event: one and the same object for one and the same demand. */
  states(passage: Passage, event: number): StateSet;
  /** The step between two events. Good until the next call. */
  link(from: StateSet, to: StateSet): Link;
}

/** States live as long as the demand (spec and setup) they answer; the link is one pair of tables filled again and again. */
export function createTables(): Tables {
  const sets = new WeakMap<Setup, WeakMap<EventSpec, StateSet>>();
  const step = new LinkTables();
  return {
    states({ setup, events }, event) {
      const { spec } = events[event]!;
      let bySpec = sets.get(setup);
      if (!bySpec) {
        bySpec = new WeakMap();
        sets.set(setup, bySpec);
      }
      let states = bySpec.get(spec);
      if (!states) {
        states = statesOf(spec, setup);
        bySpec.set(spec, states);
      }
      return states;
    },
    link: (from, to) => step.fill(from, to),
  };
}
