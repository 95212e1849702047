import { t } from '../l10n/translate';
import { pitchName, spell } from '../music/pitch';
import type { NoteSpec, Setup } from '../passage/passage';
import { wayLabel } from '../scene/scene';
import { mmWords } from '../scene/words';
import { isShape, shapeOf } from '../solver/shape';
import type { Way } from '../solver/way';
import { waysOf } from '../solver/ways';

/** A pitch that this instrument and hand can sound as a harmonic. */
export interface ReachablePitch {
  /** The piano key, 60 for middle C. */
  readonly key: number;
  /** `D6`. */
  readonly name: string;
  /** The surest way: «III natural 1/4, finger 3, room 4.6 mm either side». */
  readonly surest: string;
  /** In how many ways it can be had. */
  readonly ways: number;
}

/** From the cello's lowest natural harmonic to the end of the violin's useful range: C3 to C8. */
const LOWEST = 48;
const HIGHEST = 108;

const known = new WeakMap<Setup, Map<boolean, readonly ReachablePitch[]>>();

/** Every pitch that can be sounded as a harmonic under a setup, lowest first. Worked out once for each setup. */
export function reachableHarmonics(setup: Setup, flats: boolean): readonly ReachablePitch[] {
  const bySpelling = known.get(setup) ?? new Map<boolean, readonly ReachablePitch[]>();
  known.set(setup, bySpelling);
  let pitches = bySpelling.get(flats);
  if (!pitches) {
    pitches = Array.from({ length: HIGHEST - LOWEST + 1 }, (_, i) => reachable(LOWEST + i, flats, setup)).flat();
    bySpelling.set(flats, pitches);
  }
  return pitches;
}

function reachable(key: number, flats: boolean, setup: Setup): readonly ReachablePitch[] {
  const pitch = spell(key, flats);
  const note: NoteSpec = { asked: { kind: 'sounding', pitch }, harmonic: 'must', pins: {} };
  const ways = waysOf(note, setup).filter((way) => (way.tolerance ?? 0) > 0 && isShape(shapeOf([way], setup)));
  // A natural harmonic asks less of the hand than any artificial one with as much room.
  const naturals = ways.filter(({ kind }) => kind === 'natural');
  const best = (naturals.length ? naturals : ways).reduce<Way | undefined>(roomier, undefined);
  if (!best) return [];
  const surest = t('{way}, room {room} either side', {
    way: wayLabel(best),
    room: mmWords(best.tolerance ?? 0),
  });
  return [{ key, name: pitchName(pitch), surest, ways: ways.length }];
}

function roomier(best: Way | undefined, way: Way): Way {
  return best && (best.tolerance ?? 0) >= (way.tolerance ?? 0) ? best : way;
}
