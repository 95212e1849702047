import { pitchName } from '../music/pitch';
import { centsWords, mmWords, printedPitch } from '../scene/words';
import { referenceHarmonic } from '../solver/reference';
import type { Solution } from '../solver/solution';
import type { Way } from '../solver/way';

/** What is shown at a stopped note that a natural harmonic of the same pitch, or its octave, can check. */
export interface Reference {
  readonly label: string;
  readonly tooltip: string;
}

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
  const best = referenceHarmonic(way, passage.setup);
  if (!best) return undefined;
  const apart = centsWords(best.cents);
  return {
    label: `= ${best.string.name} ${best.k}/${best.n}`,
    tooltip:
      `${printedPitch(pitchName(way.sounding))} can be checked against the natural harmonic on ${best.string.name} at ${best.k}/${best.n} ` +
      `(${mmWords(best.mm)} from the nut)${apart ? `, which is ${apart} from it` : ', the same pitch'}.`,
  };
}
