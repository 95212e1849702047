import { alternationCost } from './alternation';
import { breakingOf } from './breaking';
import { chancesOf, cleanOf } from './chances';
import { heardOf, tellChoice } from './choice';
import { toNats } from './cost';
import { HABIT_TERM, habitCosts } from './habits';
import type { Column } from './lattice';
import { hopCost, hops, kept, landingAfter, landingCost, moveSeconds, shifted, stepCost } from './move';
import { shapeTerms, type Terms } from './own';
import type { Shape } from './shape';
import type { Fingering, Solution, SolvedEvent } from './solution';
import type { StateSet } from './states';
import { DOWN, occasionOf, STAYS, tellDistance, tellStep, UP } from './step';
import type { TermName } from './terms';

/** A state as players read it. */
export function fingeringOf(states: StateSet, state: number): Fingering {
  const shape = shapeAt(states, state);
  const place = states.place[state]!;
  const breaking = breakingOf(states.spec, shape);
  return {
    ways: shape.ways,
    hand: { mm: states.places[place]!, position: states.positions[place]! },
    barred: shape.barred,
    ...(breaking && { breaking }),
    ...(shape.hands.length > 1 && { inHalves: true as const }),
  };
}

export function shapeAt(states: StateSet, state: number): Shape {
  return states.shapes[states.shape[state]!]!;
}

/** The step onto a state: how far the hand goes, in what time, and which notes' fingers are down already. */
export interface Step {
  readonly distance: number;
  readonly seconds: number;
  readonly kept: readonly boolean[];
  /** True where a bow stroke begins with it. */
  readonly bowed: boolean;
}

export function stepOnto(column: Column, state: number, previous: Column | undefined, from: number): Step {
  const { states } = column;
  const notes = states.spec.notes;
  if (!previous || column.fresh || from < 0) return { distance: 0, seconds: 1, kept: notes.map(() => false), bowed: true };
  const before = previous.states;
  const moved = before.place[from] !== states.place[state];
  const a = before.shape[from]!;
  return {
    distance: moved ? Math.abs(states.places[states.place[state]!]! - before.places[before.place[from]!]!) : 0,
    seconds: moveSeconds(before.spec, before.facts.fingers[a] === 0),
    bowed: !before.spec.slurred,
    kept: notes.map((_, note) => !moved && kept(before.facts, a, states.facts, states.shape[state]!, note)),
  };
}

/** The step onto an event as fingered; undefined where it can't be played. */
export function stepAt(solution: Solution, event: number): Step | undefined {
  const { lattice, path } = solution.work;
  const state = path[event] ?? -1;
  return state < 0 ? undefined : stepOnto(lattice.columns[event]!, state, lattice.columns[event - 1], path[event - 1] ?? -1);
}

/** What landing each note costs after a step; nothing for fingers that are down already. */
function landings(states: StateSet, state: number, step: Step): readonly number[] {
  const error = landingAfter(step.distance, step.seconds, states.setup);
  return step.kept.map((down, note) => (down ? 0 : landingCost(states.facts, states.shape[state]!, note, error)));
}

/** One event on a path, its cost taken apart term by term. The terms sum to the cost exactly, in the solver's whole numbers. */
export function solvedEvent(column: Column, state: number, previous: Column | undefined, from: number): SolvedEvent {
  const { states } = column;
  const step = stepOnto(column, state, previous, from);
  const landed = landings(states, state, step);
  const terms: Terms = shapeTerms(shapeAt(states, state), states.spec, states.setup, states.around.fifths);
  const add = (name: TermName, cost: number) => {
    if (cost > 0) terms[name] = (terms[name] ?? 0) + cost;
  };
  add('extension', states.there[state]!);
  for (const cost of landed) add('placement', cost);
  const costs = habitCosts(states.setup);
  const tell = (habit: number) => add(HABIT_TERM[habit]!, costs[habit]!);
  tellChoice(states, state, heardOf(states.spec, states.around), tell);
  if (previous && !column.fresh && from >= 0) {
    const before = previous.states;
    const [a, b] = [before.shape[from]!, states.shape[state]!];
    const [left, reached] = [before.place[from]!, states.place[state]!];
    const move = left === reached ? STAYS : left < reached ? UP : DOWN;
    tellStep(occasionOf(before, states), before.facts.class[a]!, states.facts.class[b]!, move, tell);
    tellDistance(shifted(states.positions, left, reached), before.facts.fingers[a] === 0, tell);
    add('slide', stepCost(before, a, states, b, move === STAYS));
    add('ornament', alternationCost(before, a, states, b, move === STAYS));
    if (move === STAYS && Math.max(before.facts.fingers[a]!, states.facts.fingers[b]!) > 1) {
      add('hop', hopCost(before.spec) * hops(before.facts, a, states.facts, b));
    }
  }
  let cost = 0;
  for (const one of Object.values(terms)) cost += one;
  const chances = chancesOf(states, state, step, states.spec.seconds);
  return {
    fingering: fingeringOf(states, state),
    cost: toNats(cost),
    terms: Object.fromEntries(Object.entries(terms).map(([name, one]) => [name, toNats(one)])),
    speaks: chances.landing.map((one, note) => one * chances.speech[note]!),
    chance: cleanOf(chances),
  };
}
