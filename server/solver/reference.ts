import type { InstrumentString } from '../instrument/instrument';
import { NODES, partialSemitones, touchPlace } from '../instrument/nodes';
import { stiffnessCents } from '../instrument/stiffness';
import { tolerance } from '../instrument/tolerance';
import { semitone } from '../music/pitch';
import { cents } from '../music/temperament';
import type { Setup } from '../passage/passage';
import type { Way } from './way';

/** A natural harmonic at the pitch of a stopped note, which a player can check it by. */
export interface ReferenceHarmonic {
  readonly string: InstrumentString;
  /** Touched at `k/n` of the string, `mm` from the nut. */
  readonly k: number;
  readonly n: number;
  readonly mm: number;
  /** Cents that the harmonic lies above the stopped note. */
  readonly cents: number;
}

/** Only harmonics that speak at once are worth checking by: the octave, the twelfth, two octaves. */
const HIGHEST_PARTIAL = 4;
/** A slack node is no reference: it must leave the finger at least this much, mm. */
const LEAST_ROOM = 3;

/** The natural harmonic at the pitch of a stopped note that lies nearest to its finger; undefined where there is none. */
export function referenceHarmonic(way: Way, { instrument }: Setup): ReferenceHarmonic | undefined {
  const { length, strings } = instrument;
  const wanted = semitone(way.sounding);
  const choices = strings.flatMap((string) =>
    NODES.filter(
      ({ k, n }) =>
        n <= HIGHEST_PARTIAL && semitone(string.pitch) + partialSemitones(n) === wanted && tolerance(length, k, n) >= LEAST_ROOM,
    ).map(({ k, n }) => {
      const sharp = stiffnessCents(string.inharmonicity, length, length, n);
      return { string, k, n, mm: touchPlace(0, length, k, n), cents: cents((string.hz * n) / way.hz) + sharp };
    }),
  );
  const [nearest] = choices.sort((a, b) => Math.abs(a.mm - (way.stop?.mm ?? 0)) - Math.abs(b.mm - (way.stop?.mm ?? 0)));
  return nearest;
}
