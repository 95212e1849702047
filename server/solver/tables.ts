import type { EventSpec, Passage, Setup } from '../passage/passage';
import { type Layout, layoutOf } from './layout';
import { type Link, LinkMaker } from './link';
import { type ShapeSet, shapeSetOf } from './shape-set';
import { type StateSet, statesOf } from './states';
import { surroundingsOf } from './surroundings';

/** Where the passes get their tables from. */
export interface Tables {
  /** The states of an event: one and the same object for one and the same demand. */
  states(passage: Passage, event: number): StateSet;
  /** The step between two events. */
  link(from: StateSet, to: StateSet): Link;
}

/** Notes whose shapes and layouts are remembered for the next spec that has the same. */
const MOST_NOTES = 1024;

/** Surroundings of one demand whose states are remembered. */
const MOST_SETS = 256;

/** The shapes of some notes, and how they lie in each key. */
interface Lying {
  readonly shapes: ShapeSet;
  readonly layouts: Map<number, Layout>;
}

/** What is known of one demand: how its notes lie, and its states by its surroundings. */
interface Known {
  readonly lying: Lying;
  readonly sets: Map<string, StateSet>;
}

/**
 * States live as long as the demand (spec and setup) they answer, one set for each kind of surroundings it stands in; shapes and layouts
 * are shared by all demands for the same notes, layouts in the same key.
 */
export function createTables(): Tables {
  const bySetup = new WeakMap<Setup, { lying: Map<string, Lying>; demands: WeakMap<EventSpec, Known> }>();
  const byPassage = new WeakMap<Passage, (StateSet | undefined)[]>();
  const links = new LinkMaker();

  return {
    states(passage, event) {
      let known = byPassage.get(passage);
      if (!known) {
        known = [];
        byPassage.set(passage, known);
      }
      known[event] ??= statesIn(passage, event);
      return known[event];
    },
    link: (from, to) => links.link(from, to),
  };

  function statesIn(passage: Passage, event: number): StateSet {
    const { setup, events } = passage;
    const { spec } = events[event]!;
    let all = bySetup.get(setup);
    if (!all) {
      all = { lying: new Map(), demands: new WeakMap() };
      bySetup.set(setup, all);
    }
    let known = all.demands.get(spec);
    if (!known) {
      known = { lying: lyingOf(spec, setup, all.lying), sets: new Map() };
      all.demands.set(spec, known);
    }
    const { lying, sets } = known;
    const around = surroundingsOf(passage, event);
    let states = sets.get(around.key);
    if (!states) {
      if (sets.size >= MOST_SETS) sets.clear();
      states = statesOf(spec, setup, around, layoutIn(around.fifths, lying, spec, setup));
      sets.set(around.key, states);
    }
    return states;
  }
}

function lyingOf({ notes }: EventSpec, setup: Setup, known: Map<string, Lying>): Lying {
  const key = JSON.stringify(notes);
  let lying = known.get(key);
  if (!lying) {
    if (known.size >= MOST_NOTES) known.clear();
    lying = { shapes: shapeSetOf(notes, setup), layouts: new Map() };
    known.set(key, lying);
  }
  return lying;
}

function layoutIn(fifths: number, { shapes, layouts }: Lying, { notes }: EventSpec, setup: Setup): Layout {
  let layout = layouts.get(fifths);
  if (!layout) {
    layout = layoutOf(notes, setup, fifths, shapes);
    layouts.set(fifths, layout);
  }
  return layout;
}
