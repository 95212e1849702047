import { FASTEST_BEAT, QUICKEST_NOTE } from '../hand/constants';
import type { Tempo } from '../music/meter';
import { type Chances, chancesOf, cleanOf, product } from './chances';
import { stepAt } from './read';
import type { Solution } from './solution';

/** How many times slower than written a tempo is looked for. */
const SLOWEST = 8;

/** Notes that are played in one breath, as it were: a longer passage is as safe as its least safe stretch of so many. Assumption. */
export const STRETCH = 48;

/** What ends a tempo: fingers that must land, harmonics that must speak, finger and bow that must meet; or nothing that a metronome still shows. */
export type Limit = 'left hand' | 'response' | 'finger and bow' | 'none';

export interface Ceiling extends Tempo {
  readonly limit: Limit;
}

/**
 * The fastest tempo at which every stretch of the passage (see STRETCH), fingered as in the solution, comes out clean with
 * at least the given chance (0 to 1). Every tempo of the passage is scaled alike; the answer is in the beat of the
 * first, rounded down to whole beats a minute. Undefined where even an eighth of the written tempo is
 * too fast, or the passage can't be played; never so fast that a note is too short for the fingers, nor past a metronome's end.
 */
export function ceiling(solution: Solution, chance: number): Ceiling | undefined {
  const first = solution.passage.events.find(({ spec }) => spec.notes.length > 0)?.tempo;
  if (!first || solution.unplayables.length > 0) return undefined;
  const risks = risksOf(solution);
  const safe = (bpm: number) => worstStretch(risks(bpm / first.bpm)) <= -Math.log(chance);
  const quickest = Math.floor((first.bpm * shortest(solution)) / QUICKEST_NOTE);
  const most = Math.min(quickest, Math.max(FASTEST_BEAT, first.bpm));
  let good = Math.max(1, Math.floor(first.bpm / SLOWEST));
  if (most < good || !safe(first.bpm / SLOWEST) || !safe(good)) return undefined;
  if (safe(most)) return { beat: first.beat, bpm: most, limit: most === quickest ? 'left hand' : 'none' };
  let bad = most;
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (safe(middle)) good = middle;
    else bad = middle;
  }
  return { beat: first.beat, bpm: good, limit: limitOf(risks(bad / first.bpm)) };
}

/** Seconds of the shortest note, rest included. */
function shortest({ passage }: Solution): number {
  return passage.events.reduce(
    (least, { spec }) => (spec.notes.length ? Math.min(least, spec.seconds + spec.rest) : least),
    Number.MAX_VALUE,
  );
}

/** The chances of every event at so many times the written tempo. */
function risksOf(solution: Solution): (times: number) => readonly Chances[] {
  const { lattice, path } = solution.work;
  const steps = lattice.columns.flatMap(({ states }, event) => {
    const step = states.spec.notes.length > 0 ? stepAt(solution, event) : undefined;
    return step ? [{ states, state: path[event]!, step }] : [];
  });
  return (times) =>
    steps.map(({ states, state, step }) =>
      chancesOf(states, state, { ...step, seconds: step.seconds / times }, states.spec.seconds / times),
    );
}

/** Minus the log of the least chance of any stretch. */
function worstStretch(risks: readonly Chances[]): number {
  const nats = risks.map((one) => -Math.log(cleanOf(one)));
  let sum = 0;
  let worst = 0;
  for (const [at, one] of nats.entries()) {
    sum += one - (nats[at - STRETCH] ?? 0);
    worst = Math.max(worst, sum);
  }
  return worst;
}

function limitOf(risks: readonly Chances[]): Limit {
  const nats = (of: (one: Chances) => number) => risks.reduce((sum, one) => sum - Math.log(of(one)), 0);
  const parts: readonly (readonly [Limit, number])[] = [
    ['left hand', nats(({ landing }) => product(landing))],
    ['response', nats(({ speech }) => product(speech))],
    ['finger and bow', nats(({ together }) => together)],
  ];
  return parts.reduce((most, part) => (part[1] > most[1] ? part : most))[0];
}

/** Chance that the whole passage comes out clean as fingered, at so many times the written tempo. Falls with the tempo. */
export function cleanAt(solution: Solution): (times: number) => number {
  const risks = risksOf(solution);
  return (times) => risks(times).reduce((all, one) => all * cleanOf(one), 1);
}

/** Chance that one event comes out clean as fingered, at so many times the written tempo; 0 where it can't be played. */
export function chanceAt(solution: Solution, event: number, times: number): number {
  const step = stepAt(solution, event);
  if (!step) return 0;
  const { states } = solution.work.lattice.columns[event]!;
  const { seconds } = states.spec;
  return cleanOf(chancesOf(states, solution.work.path[event]!, { ...step, seconds: step.seconds / times }, seconds / times));
}
