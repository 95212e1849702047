import type { EventSpec, Setup } from '../passage/passage';
import { heardOf, tellChoice } from './choice';
import { habitCosts } from './habits';
import { type Layout, layoutOf } from './layout';
import { type TellTerm, tellAsked, tellLasting } from './own';
import type { ShapeSet } from './shape-set';
import { alone, type Surroundings } from './surroundings';
import { type TimedFacts, timedFacts } from './timed-facts';

/** The states of one event: the layout of its notes, with what each costs by itself at this event's length and loudness, in these surroundings. */
export interface StateSet extends Layout {
  readonly spec: EventSpec;
  readonly around: Surroundings;
  readonly layout: Layout;
  readonly facts: TimedFacts;
  /** By state. */
  readonly own: Int32Array;
}

export function statesOf(
  spec: EventSpec,
  setup: Setup,
  around: Surroundings = alone(spec.notes, setup.instrument),
  layout: Layout = layoutOf(spec.notes, setup, around.fifths),
): StateSet {
  const sums = shapeCosts(layout, spec, setup, around.fifths);
  const costs = habitCosts(setup);
  const heard = heardOf(spec, around);
  const own = new Int32Array(layout.size);
  let cost = 0;
  const tell = (habit: number) => {
    cost += costs[habit]!;
  };
  for (let state = 0; state < layout.size; state++) {
    cost = layout.there[state]! + sums[layout.shape[state]!]!;
    tellChoice(layout, state, heard, tell);
    own[state] = cost;
  }
  return { ...layout, spec, around, layout, facts: timedFacts(layout, spec.seconds), own };
}

/** Different lengths and loudnesses that are remembered for some notes' shapes. */
const MOST_PRICED = 24;

/** What is remembered of some notes' shapes: what each costs in any event, and in all in events that ask this or that of them. */
interface Priced {
  readonly lasting: Int32Array;
  readonly events: Map<string, Int32Array>;
}

const known = new WeakMap<ShapeSet['facts'], Priced>();

/**
 * What each shape of some notes costs by itself in an event. Of all that a spec asks besides its notes, shapes cost more or less by its length,
 * loudness, plucking and ornament; by the key only where there is an ornament.
 */
function shapeCosts({ shapes, facts }: ShapeSet, spec: EventSpec, setup: Setup, fifths: number): Int32Array {
  let sum = 0;
  const tell: TellTerm = (_, cost) => {
    if (cost > 0) sum += cost;
  };
  let all = known.get(facts);
  if (!all) {
    const lasting = Int32Array.from(shapes, (shape) => {
      sum = 0;
      tellLasting(shape, setup, tell);
      return sum;
    });
    all = { lasting, events: new Map() };
    known.set(facts, all);
  }
  const { lasting, events } = all;
  const key = `${spec.seconds} ${spec.dynamic}${spec.plucked ? ' plucked' : ''}${spec.ornament ? ` ${spec.ornament} ${spec.upper ?? ''} ${fifths}` : ''}`;
  let made = events.get(key);
  if (!made) {
    if (events.size >= MOST_PRICED) events.clear();
    made = Int32Array.from(shapes, (shape, i) => {
      sum = lasting[i]!;
      tellAsked(shape, spec, setup, fifths, tell);
      return sum;
    });
    events.set(key, made);
  }
  return made;
}
