import { positionOf } from '../hand/places';
import { NAT, toNats } from './cost';
import type { Column } from './lattice';
import { bowTerms, hopCost, landingCost, moveSeconds, shiftCost, stays, stepCost } from './move';
import { placeCost, type Terms } from './own';
import type { Shape } from './shape';
import type { Fingering, SolvedEvent } from './solution';
import type { StateSet } from './states';
import type { TermName } from './terms';

/** A state as players read it. */
export function fingeringOf(states: StateSet, state: number): Fingering {
  const shape = shapeAt(states, state);
  const place = states.place[state]!;
  return { ways: shape.ways, hand: { mm: states.places[place]!, position: positionOf(place) }, barred: shape.barred };
}

export function shapeAt(states: StateSet, state: number): Shape {
  return states.shapes[states.shape[state]!]!;
}

/** The step onto a state: how far the hand goes, in what time, and which notes' fingers are down already. */
export interface Step {
  readonly distance: number;
  readonly seconds: number;
  readonly kept: readonly boolean[];
}

export function stepOnto(column: Column, state: number, previous: Column | undefined, from: number): Step {
  const shape = shapeAt(column.states, state);
  if (!previous || column.fresh || from < 0) return { distance: 0, seconds: 1, kept: shape.ways.map(() => false) };
  const before = previous.states;
  const last = shapeAt(before, from);
  const moved = before.place[from] !== column.states.place[state];
  return {
    distance: moved ? Math.abs(column.states.places[column.states.place[state]!]! - before.places[before.place[from]!]!) : 0,
    seconds: moveSeconds(before.spec, last.fingers.length === 0),
    kept: moved ? shape.ways.map(() => false) : stays(last, shape),
  };
}

/** One event on a path, its cost taken apart term by term. The terms sum to the cost exactly, in the solver's whole numbers. */
export function solvedEvent(column: Column, state: number, previous: Column | undefined, from: number): SolvedEvent {
  const { states } = column;
  const { setup } = states;
  const shape = shapeAt(states, state);
  const step = stepOnto(column, state, previous, from);
  const terms: Terms = { ...states.terms[states.shape[state]!]! };
  const add = (name: TermName, cost: number) => {
    if (cost > 0) terms[name] = (terms[name] ?? 0) + cost;
  };
  add('extension', placeCost(shape, states.places[states.place[state]!]!, setup));
  const landed = shape.landings.map((one, note) => (step.kept[note] ? 0 : landingCost(one, step.distance, step.seconds, setup)));
  for (const cost of landed) add('placement', cost);
  if (previous && !column.fresh && from >= 0) {
    const last = shapeAt(previous.states, from);
    add('shift', shiftCost(step.distance, step.seconds));
    for (const [name, cost] of Object.entries(bowTerms(last, shape, previous.states.spec))) add(name as TermName, cost);
    const still = step.distance === 0;
    add('slide', stepCost(last, shape, states.spec, still));
    if (still) add('hop', hopCost(last, shape, previous.states.spec));
  }
  let cost = 0;
  for (const one of Object.values(terms)) cost += one;
  return {
    fingering: fingeringOf(states, state),
    cost: toNats(cost),
    terms: Object.fromEntries(Object.entries(terms).map(([name, one]) => [name, toNats(one)])),
    speaks: landed.map((one) => Math.exp(-one / NAT)),
  };
}
