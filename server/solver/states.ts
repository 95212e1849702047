import type { EventSpec, Setup } from '../passage/passage';
import { heardOf, tellChoice } from './choice';
import { habitCosts } from './habits';
import { type Layout, layoutOf } from './layout';
import { shapeTerms, type Terms } from './own';
import { alone, type Surroundings } from './surroundings';
import { type TimedFacts, timedFacts } from './timed-facts';

/** The states of one event: the layout of its notes, with what each costs by itself at this event's length and loudness, in these surroundings. */
export interface StateSet extends Layout {
  readonly spec: EventSpec;
  readonly around: Surroundings;
  readonly layout: Layout;
  readonly facts: TimedFacts;
  /** By shape. */
  readonly terms: readonly Terms[];
  /** By state. */
  readonly own: Int32Array;
}

export function statesOf(
  spec: EventSpec,
  setup: Setup,
  around: Surroundings = alone(spec.notes, setup.instrument),
  layout: Layout = layoutOf(spec.notes, setup, around.fifths),
): StateSet {
  const terms = layout.shapes.map((shape) => shapeTerms(shape, spec, setup, around.fifths));
  const byShape = Int32Array.from(terms, (one) => {
    let sum = 0;
    for (const name in one) sum += one[name as keyof Terms]!;
    return sum;
  });
  const costs = habitCosts(setup);
  const heard = heardOf(spec, around);
  const own = new Int32Array(layout.size);
  let cost = 0;
  const tell = (habit: number) => {
    cost += costs[habit]!;
  };
  for (let state = 0; state < layout.size; state++) {
    cost = layout.there[state]! + byShape[layout.shape[state]!]!;
    tellChoice(layout, state, heard, tell);
    own[state] = cost;
  }
  return { ...layout, spec, around, layout, facts: timedFacts(layout, spec.seconds), terms, own };
}
