import type { EventSpec, Setup } from '../passage/passage';
import type { Tables } from './lattice';
import { type Link, linkOf } from './link';
import { type StateSet, statesOf } from './states';

/** How many table cells of links are kept at most, per generation; 4 bytes each. */
const MOST_CELLS = 6_000_000;

/**
 * Keeps the tables of states and links that a passage in the works asks for again and again. States live
 * as long as the demand (spec and setup) they answer; links in two generations, so that memory stays
 * flat however long the day of typing.
 */
export function cachedTables(): Tables {
  const sets = new WeakMap<Setup, WeakMap<EventSpec, StateSet>>();
  let young = new Map<StateSet, Map<StateSet, Link>>();
  let old = new Map<StateSet, Map<StateSet, Link>>();
  let cells = 0;

  const keep = (from: StateSet, to: StateSet, link: Link): Link => {
    cells += link.hand.length + link.away.length + link.still.length;
    if (cells > MOST_CELLS) {
      old = young;
      young = new Map();
      cells = 0;
    }
    const row = young.get(from) ?? new Map<StateSet, Link>();
    young.set(from, row.set(to, link));
    return link;
  };

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
    link(from, to) {
      return young.get(from)?.get(to) ?? keep(from, to, old.get(from)?.get(to) ?? linkOf(from, to));
    },
  };
}
