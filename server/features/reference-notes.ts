import { NODES, partialSemitones, touchPlace } from '../instrument/nodes';
import { tolerance } from '../instrument/tolerance';
import { pitchName, semitone } from '../music/pitch';
import { cents } from '../music/temperament';
import { centsWords, mmWords, printedPitch } from '../scene/words';
import type { Solution } from '../solver/solution';
import type { Way } from '../solver/way';

/** What is shown at a stopped note that a natural harmonic of the same pitch, or its octave, can check. */
export interface Reference {
  readonly label: string;
  readonly tooltip: string;
}

/** Only harmonics that speak at once are worth checking by: the octave, the twelfth, two octaves. */
const HIGHEST_PARTIAL = 4;
/** A slack node is no reference: it must leave the finger at least this much, mm. */
const LEAST_ROOM = 3;

/**
 * The stopped notes of a passage that have a natural harmonic at the same pitch: points where a player can check
 * the hand against the string itself. By event index.
 */
export function referenceNotes(solution: Solution): ReadonlyMap<number, Reference> {
  const found = new Map<number, Reference>();
  solution.events.forEach((solved, event) => {
    const way = solved?.fingering.ways.find(({ kind }) => kind === 'stopped');
    const reference = way && referenceFor(way, solution);
    if (reference) found.set(event, reference);
  });
  return found;
}

function referenceFor(way: Way, { passage }: Solution): Reference | undefined {
  const { length, strings } = passage.setup.instrument;
  const wanted = semitone(way.sounding);
  const choices = strings.flatMap((string) =>
    NODES.filter(
      ({ k, n }) =>
        n <= HIGHEST_PARTIAL && semitone(string.pitch) + partialSemitones(n) === wanted && tolerance(length, k, n) >= LEAST_ROOM,
    ).map(({ k, n }) => ({ string, k, n, mm: touchPlace(0, length, k, n) })),
  );
  // The nearest one to the hand.
  const [best] = choices.sort((a, b) => Math.abs(a.mm - (way.stop?.mm ?? 0)) - Math.abs(b.mm - (way.stop?.mm ?? 0)));
  if (!best) return undefined;
  const off = cents((best.string.hz * best.n) / way.hz);
  const apart = centsWords(off);
  return {
    label: `= ${best.string.name} ${best.k}/${best.n}`,
    tooltip:
      `${printedPitch(pitchName(way.sounding))} can be checked against the natural harmonic on ${best.string.name} at ${best.k}/${best.n} ` +
      `(${mmWords(best.mm)} from the nut)${apart ? `, which is ${apart} from it` : ', the same pitch'}.`,
  };
}
