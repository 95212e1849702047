import { HABITS } from '../../server/solver/habits';
import { partition, type Sample, scoresOf, taken } from './crf';
import { type Lists, SHARPNESS } from './lattice';
import { least, type Objective } from './lbfgs';

/** How far a weight may stray from where it starts, as the L2 penalty (half the square times this, in units of the score). Chosen on whole works left out. */
export const HOLD = 11;

/** How often the hand's place is expected anew, and iterations of the fit in between. */
const ROUNDS = 2;
const ITERATIONS = 18;

/**
 * Where common practice says what hardly any of the pieces show, weights start there instead of at nothing, in units of the score,
 * and are held there the more firmly. Common practice, no source: in bariolage the repeated note is the open string, the moving one on the
 * string below it. A note repeated and repeated keeps its finger. An octave is played in the hand's frame, first and fourth finger, and the hand doesn't move within it. The data say nothing of slurs: a bow stroke stays on its string where it can; and little of double stops, which are
 * taken as low as they lie.
 */
const PRACTICE: Readonly<Record<string, number>> = {
  'pedal: open': 6,
  'pedal: stopped': 0,
  'besidePedal: on the string below': 3,
  'besidePedal: on its string': -1.5,
  'besidePedal: on a string above': 0,
  'besidePedal: open': -1.5,
  'crossingSlurred: neighbour': -0.9,
  'crossingSlurred: farther': -2.4,
  'doubleHeight: 1st position': 0,
  'doubleHeight: 2nd': -1.5,
  'doubleHeight: 3rd-4th': -3,
  'doubleHeight: higher': -3.5,
  'repeat: and again, as before': 0,
  'repeat: and again, another finger': -2,
  'repeat: and again, another string': -2,
  'recurring: same string': -1.5,
  'recurring: same string, its own open': -1.5,
  'recurring: another string': 0.75,
  'recurring: another string, an open pitch': 0.75,
  'fingersOver: -3, octave': -5,
  'fingersOver: -2, octave': -5,
  'fingersOver: -1, octave': -5,
  'fingersOver: 0, octave': -5,
  'fingersOver: 1, octave': -5,
  'fingersOver: 2, octave': -4,
  'shiftOver: within an octave': -8,
};
const FIRMLY = 20;

/** Weights of all habits, in units of the score, from what players chose. */
export function fit(samples: readonly Sample[], lists: Lists): Float64Array {
  const start = Float64Array.from(HABITS, (name) => PRACTICE[name] ?? 0);
  const hold = HABITS.map((name) => (name in PRACTICE ? HOLD * FIRMLY : HOLD));
  let weights: Float64Array = start.slice();
  for (let round = 0; round < ROUNDS; round++) {
    const chosen = taken(samples, scoresOf(lists, weights));
    weights = least(against(chosen), weights, ITERATIONS, 2e-5);
  }
  return weights;

  /** Minus the log-likelihood of counted choices, and what it takes to stray from the start. */
  function against(chosen: Float64Array): Objective {
    return (at, gradient) => {
      const scores = scoresOf(lists, at);
      const counts = new Float64Array(lists.all.length);
      let value = partition(samples, scores, counts);
      gradient.fill(0);
      for (let list = 0; list < counts.length; list++) {
        value -= chosen[list]! * scores[list]!;
        const more = counts[list]! - chosen[list]!;
        if (more !== 0) for (const habit of lists.all[list]!) gradient[habit]! += more;
      }
      for (let i = 0; i < at.length; i++) {
        const off = at[i]! - start[i]!;
        value += (hold[i]! / 2) * off * off;
        gradient[i]! += hold[i]! * off;
      }
      return value;
    };
  }
}

/** Weights as costs in nats: of every family the cheapest choice costs nothing. */
export function costsOf(weights: Float64Array): Float64Array {
  const costs = weights.map((weight) => -weight / SHARPNESS);
  const families = new Map<string, number[]>();
  for (const [habit, name] of HABITS.entries()) {
    const family = name.slice(0, name.indexOf(':'));
    families.set(family, [...(families.get(family) ?? []), habit]);
  }
  for (const habits of families.values()) {
    const cheapest = Math.min(...habits.map((habit) => costs[habit]!));
    for (const habit of habits) costs[habit]! -= cheapest;
  }
  return costs;
}
