import { kBest } from '../../server/solver/best';
import type { Solution, SolvedEvent } from '../../server/solver/solution';
import type { Way } from '../../server/solver/way';
import { TABLE } from '../common-practice/cases/table';
import { readFingering } from '../common-practice/fingering';
import { playedEvents } from '../common-practice/played';
import { reading } from '../support/reading';
import type { Sample } from './crf';
import type { Chosen } from './data';
import type { Taker } from './lattice';

/**
 * The violin's cases of common practice as one more player, for where the pieces hardly go: scales, sequences, chromatic runs, octaves. Of
 * each case the accepted fingering that the solver likes best so far. What is held back from tuning is not among them.
 */
export function taught(taker: Taker): readonly Sample[] {
  return TABLE.flatMap(({ passage: text, accepted = [] }) => {
    const [solution] = reading(text).solutions;
    if (accepted.length === 0 || solution?.passage.setup.instrument.family !== 'violin') return [];
    const played = likeliest(solution, accepted);
    return played
      ? Array(OFTEN).fill({ runs: [taker.bare({ ...solution, chosen: played.map(chosenOf), harmonics: [] })], players: 1 })
      : [];
  });
}

/** How often a case counts. Assumption: once or three times, as many of the table are met, give or take one, and as many of what is held back. */
const OFTEN = 2;

/** How many of the best fingerings are looked through. */
const MOST = 400;

function likeliest(solution: Solution, accepted: readonly string[]): readonly SolvedEvent[] | undefined {
  const patterns = accepted.map(readFingering);
  for (const { events } of kBest(solution, MOST)) {
    const played = playedEvents(solution.passage, events).flatMap((one) => (one ? [one] : []));
    if (played.length === events.length && patterns.some((one) => one.matches(played))) return events as readonly SolvedEvent[];
  }
  return undefined;
}

function chosenOf({ fingering: { ways, hand } }: SolvedEvent): readonly [readonly Chosen[]] {
  const finger = (way: Way) => Number((way.stop ?? way.touch)?.finger ?? 0);
  return [ways.map((way) => ({ string: 3 - way.string, finger: finger(way), position: hand.position }))];
}
