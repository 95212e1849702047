import type { EventSpec, Setup } from '../passage/passage';
import { heardOf, tellChoice } from './choice';
import { habitCosts } from './habits';
import { type Layout, layoutOf } from './layout';
import { shapeTerms, type Terms } from './own';
import type { ShapeSet } from './shape-set';
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
  const { terms, sums } = priced(layout, spec, setup, around.fifths);
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
  return { ...layout, spec, around, layout, facts: timedFacts(layout, spec.seconds), terms, own };
}

/** What each shape of some notes costs by itself at one length and loudness: term by term, and in all. */
interface Priced {
  readonly terms: readonly Terms[];
  readonly sums: Int32Array;
}

/** Different lengths and loudnesses that are remembered for some notes' shapes. */
const MOST_PRICED = 24;

const known = new WeakMap<ShapeSet['facts'], Map<string, Priced>>();

/** Of all that a spec asks besides its notes, shapes cost more or less by its length, loudness, plucking and ornament; by the key only where there is an ornament. */
function priced({ shapes, facts }: ShapeSet, spec: EventSpec, setup: Setup, fifths: number): Priced {
  let all = known.get(facts);
  if (!all) {
    all = new Map();
    known.set(facts, all);
  }
  const key = `${spec.seconds} ${spec.dynamic}${spec.plucked ? ' plucked' : ''}${spec.ornament ? ` ${spec.ornament} ${fifths}` : ''}`;
  let made = all.get(key);
  if (!made) {
    if (all.size >= MOST_PRICED) all.clear();
    const terms = shapes.map((shape) => shapeTerms(shape, spec, setup, fifths));
    made = { terms, sums: Int32Array.from(terms, sumOf) };
    all.set(key, made);
  }
  return made;
}

function sumOf(terms: Terms): number {
  let sum = 0;
  for (const name in terms) sum += terms[name as keyof Terms]!;
  return sum;
}
