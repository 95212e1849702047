import { experienceCost } from '../hand/attempts';
import type { Setup } from '../passage/passage';
import { NAT } from './cost';
import { EFFORT } from './effort';
import { ALL_NOTES, MOST_NOTES, type ShapeFacts } from './facts';
import { type Landing, missed, roomFor, sharpness, varianceOf } from './landing';
import type { ShapeSet } from './shape-set';
import { triedWay } from './tried';
import type { Way } from './way';

/** Facts of some notes' shapes that hang on how long the notes last: what landing their fingers takes. A note's column by its index. */
export interface TimedFacts extends ShapeFacts {
  /** How far the finger of each note that lands with the hand may miss, mm; 0 where none does. */
  readonly tolerance: Float64Array;
  /** Its variance in a hand that did not move, mm². */
  readonly variance: Float64Array;
  /** Cost of the spacing between two fingers of each note, and of what experience says of it; the same wherever the hand comes from. */
  readonly spacing: Int32Array;
  /** How much missing each note counts: all of it for a harmonic, `EFFORT.care` for a stopped note. */
  readonly care: Float64Array;
  /** What landing without a move of the hand costs, by the notes that land, a bit each: none, the first, the second, both, and so on. */
  readonly resting: Int32Array;
}

/** Different lengths of a note that are remembered for one set of shapes: a passage has a few durations at a few tempos. */
const MOST_LENGTHS = 12;

const known = new WeakMap<ShapeFacts, Map<number, TimedFacts>>();

/** The facts of shapes for notes of `seconds`: one and the same object for one and the same length. */
export function timedFacts(set: ShapeSet, seconds: number): TimedFacts {
  let lengths = known.get(set.facts);
  if (!lengths) {
    lengths = new Map();
    known.set(set.facts, lengths);
  }
  let facts = lengths.get(seconds);
  if (!facts) {
    if (lengths.size >= MOST_LENGTHS) lengths.clear();
    facts = made(set, seconds);
    lengths.set(seconds, facts);
  }
  return facts;
}

function made({ shapes, facts, setup }: ShapeSet, seconds: number): TimedFacts {
  const { count } = facts;
  const tolerance = new Float64Array(count * MOST_NOTES);
  const variance = new Float64Array(count * MOST_NOTES);
  const spacing = new Int32Array(count * MOST_NOTES);
  const care = new Float64Array(count * MOST_NOTES);
  const resting = new Int32Array(count << MOST_NOTES);
  for (const [s, shape] of shapes.entries()) {
    for (let n = 0; n < shape.ways.length; n++) {
      const at = s * MOST_NOTES + n;
      const way = shape.ways[n]!;
      const target = targetOf(way, shape.landings[n]!, seconds, setup);
      tolerance[at] = target.tolerance;
      variance[at] = target.variance;
      care[at] = way.kind === 'stopped' ? EFFORT.care : 1;
      spacing[at] = Math.round(care[at]! * target.spacing);
      const own = spacing[at]! + Math.round(care[at]! * (target.resting - target.spacing));
      for (let notes = 0; notes < ALL_NOTES + 1; notes++) if (notes & (1 << n)) resting[(s << MOST_NOTES) + notes]! += own;
    }
  }
  return { ...facts, tolerance, variance, care, spacing, resting };
}

/** What landing one note takes; see `TimedFacts`. */
export interface Target {
  readonly tolerance: number;
  readonly variance: number;
  readonly spacing: number;
  readonly resting: number;
}

export function targetOf(way: Way, landings: readonly Landing[], seconds: number, setup: Setup): Target {
  const { skill } = setup.hand;
  let [tolerance, variance, spacing] = [0, 0, 0];
  for (const landing of landings) {
    const room = roomFor(landing, skill, seconds);
    const own = varianceOf(landing, skill);
    if (landing.kind === 'spacing') spacing = missed(room, sharpness(Math.sqrt(own)));
    else [tolerance, variance] = [room, own];
  }
  const alone = missed(tolerance, sharpness(Math.sqrt(variance)));
  spacing += experienced(way, spacing + alone, setup);
  return { tolerance, variance, spacing, resting: spacing + alone };
}

/** What the player's record adds to what landing a way at rest costs by the model; it takes off no more than that. */
function experienced(way: Way, model: number, setup: Setup): number {
  const tried = triedWay(way, setup);
  return tried ? Math.max(-model, Math.round(experienceCost(tried.model, tried.attempts) * NAT)) : 0;
}
