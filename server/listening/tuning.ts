import type { ExpectedEvent } from './expected';
import { type Frames, PEAKS } from './frames';

/** Farther than this from the file's A4 nobody tunes without saying so, cents. */
const FARTHEST = 60;
/** Partials by which a pitch shows, frames looked at, and peaks of each. */
const PARTIALS = 4;
const FRAMES = 3000;
const STRONGEST = 5;
/** Half the width of what counts as one tuning, cents. */
const SPREAD = 8;

/**
 * How far a recording is tuned above the file's A4, cents: where most of what is heard lies beside the nearest partial of a written
 * note. A first guess, from which notes are told apart; what each is off is measured against the tuning found from them.
 */
export function roughTuning(frames: Frames, silent: Uint8Array, expected: readonly ExpectedEvent[]): number {
  const partials = new Set<number>();
  for (const { notes } of expected) for (const { scene } of notes) for (let n = 1; n <= PARTIALS; n++) partials.add(scene.hz * n);
  const places = [...partials].map((hz) => 1200 * Math.log2(hz)).sort((a, b) => a - b);
  const found = new Float64Array(2 * FARTHEST + 1);
  const every = Math.max(1, Math.floor(frames.count / FRAMES));
  for (let frame = 0; frame < frames.count; frame += every) {
    if (silent[frame]) continue;
    for (let i = frame * PEAKS; i < frame * PEAKS + STRONGEST; i++) {
      const hz = frames.hz[i] as number;
      if (hz === 0) break;
      const off = fromNearest(places, 1200 * Math.log2(hz));
      if (Math.abs(off) <= FARTHEST)
        found[Math.round(off) + FARTHEST] = (found[Math.round(off) + FARTHEST] as number) + (frames.weight[i] as number);
    }
  }
  let best = 0;
  let most = -1;
  for (let cents = -FARTHEST; cents <= FARTHEST; cents++) {
    let sum = 0;
    for (let near = -3 * SPREAD; near <= 3 * SPREAD; near++)
      sum += (found[cents + near + FARTHEST] ?? 0) * Math.exp(-((near / SPREAD) ** 2) / 2);
    // Chromatic passages have a partial everywhere: then the nearer tuning is the likelier.
    sum *= 1 - 0.3 * (cents / FARTHEST) ** 2;
    if (sum > most) [most, best] = [sum, cents];
  }
  return best;
}

function fromNearest(sorted: readonly number[], place: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] as number) < place) low = middle + 1;
    else high = middle;
  }
  const above = place - (sorted[low] ?? Number.POSITIVE_INFINITY);
  const below = place - (sorted[low - 1] ?? Number.NEGATIVE_INFINITY);
  return Math.abs(above) < Math.abs(below) ? above : below;
}
