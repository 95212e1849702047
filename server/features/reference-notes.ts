import { t } from '../l10n/translate';
import { pitchName } from '../music/pitch';
import { centsWords, mmWords, printedPitch } from '../scene/words';
import { referenceHarmonic } from '../solver/reference';
import type { Solution } from '../solver/solution';

/** What is shown at a stopped note that a natural harmonic of the same pitch, or its octave, can check. */
export interface Reference {
  readonly label: string;
  readonly tooltip: string;
}

/** What checks an event of a passage, where it has a stopped note at the pitch of a natural harmonic: there a player can check the hand against the string itself. */
export function referenceNote(event: number, { passage, events }: Solution): Reference | undefined {
  const way = events[event]?.fingering.ways.find(({ kind }) => kind === 'stopped');
  if (!way) return undefined;
  const best = referenceHarmonic(way, passage.setup);
  if (!best) return undefined;
  const apart = centsWords(best.cents);
  const holes = {
    pitch: printedPitch(pitchName(way.sounding)),
    string: best.string.name,
    k: best.k,
    n: best.n,
    mm: mmWords(best.mm),
  };
  return {
    label: `= ${best.string.name} ${best.k}/${best.n}`,
    tooltip: apart
      ? t(
          '{pitch} can be checked against the natural harmonic on {string} at {k}/{n} ({mm} from the nut), which is {apart} from it.',
          { ...holes, apart },
        )
      : t(
          '{pitch} can be checked against the natural harmonic on {string} at {k}/{n} ({mm} from the nut), the same pitch.',
          holes,
        ),
  };
}
