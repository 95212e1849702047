import type { EventSpec, Setup } from '../passage/passage';
import { type Layout, layoutOf } from './layout';
import { shapeTerms, type Terms } from './own';
import { type TimedFacts, timedFacts } from './timed-facts';

/** The states of one event: the layout of its notes, with what each costs by itself at this event's length and loudness. */
export interface StateSet extends Layout {
  readonly spec: EventSpec;
  readonly layout: Layout;
  readonly facts: TimedFacts;
  /** By shape. */
  readonly terms: readonly Terms[];
  /** By state. */
  readonly own: Int32Array;
}

export function statesOf(spec: EventSpec, setup: Setup, layout: Layout = layoutOf(spec.notes, setup)): StateSet {
  const terms = layout.shapes.map((shape) => shapeTerms(shape, spec, setup));
  const alone = terms.map((one) => Object.values(one).reduce((sum, cost) => sum + cost, 0));
  const facts = timedFacts(layout, spec.seconds);
  return { ...layout, spec, layout, facts, terms, own: layout.there.map((there, state) => there + alone[layout.shape[state]!]!) };
}
