import { cents } from '../music/temperament';
import { medianOf } from './curve';
import type { Candidate } from './expected';
import type { Frames } from './frames';
import { isPartial, loudness } from './match';
import type { FrameVote } from './sounding';

/** Where a note begins. */
export interface Onset {
  readonly frame: number;
  /** True where partials tell it that nothing else has: else only the attack does. */
  readonly own: boolean;
}

/** Frames in a row from which on a note is there. */
const STAYS = 3;
/** Frames that the window smears, and frames on either side in which an attack is looked for. */
const EDGE = 4;
const NEAR = 8;
/** Frames in which an attack rises at most, and the share of its steepest rise that is part of it. */
const SLOWEST = 3;
const HALF = 0.5;
/** Frames of a note by which its loudness is known, and the share of it at which it has begun: half of the window has heard it, less for a slow start. */
const PLATEAU = 10;
const BEGUN = 0.2;
/** Cents within which a pitch is the one before, or a partial of it. */
const SAME = 50;

/**
 * The frame in which what a note is begins: where a note speaks late that is where its pitch begins, not the scratching before it.
 *
 * @param candidate what it is; where that is not known only the attack tells
 * @param before pitches that sound until then, Hz
 * @param beside pitches that sound with it
 */
export function onsetOf(
  frames: Frames,
  begins: Float32Array,
  votes: readonly FrameVote[],
  candidate: Candidate | undefined,
  from: number,
  tuned: number,
  before: readonly number[],
  beside: readonly number[],
): Onset {
  if (!candidate) return { frame: attackNear(begins, from), own: false };
  const is = (vote: FrameVote | undefined) => vote?.candidate?.hz === candidate.hz;
  const first = votes.findIndex((_, i) => Array.from({ length: STAYS }, (_, j) => votes[i + j]).every(is));
  const there = votes[first]?.frame ?? from;
  const off = medianOf(votes.filter(is).flatMap((vote) => vote.cents ?? []));
  const hz = candidate.hz * tuned * 2 ** (off / 1200);
  const others = [...before, ...beside];
  const loud = (frame: number) => loudness(frames, Math.max(0, Math.min(frames.count - 1, frame)), hz, others);
  const whole = medianOf(Array.from({ length: PLATEAU }, (_, i) => loud(there + EDGE + i)));
  if (whole === 0 || others.some((other) => isPartial(hz, other, SAME))) {
    const sounded = before.some((other) => Math.abs(cents(other / hz)) < SAME);
    return { frame: attackNear(begins, sounded ? from : there), own: false };
  }
  let frame = there;
  while (frame > from - 2 * EDGE && loud(frame - 1) > BEGUN * whole) frame--;
  while (frame < there + 2 * EDGE && loud(frame) < BEGUN * whole) frame++;
  return { frame, own: true };
}

/** The frame near another in which most begins; the nearer the likelier. */
function attackNear(begins: Float32Array, near: number): number {
  let [best, most] = [near, 0];
  for (let frame = near - NEAR; frame <= near + NEAR; frame++) {
    const likely = (begins[frame] ?? 0) * (1 - Math.abs(frame - near) / (2 * NEAR));
    if (likely > most) [best, most] = [frame, likely];
  }
  // A string that speaks slowly rises for a while: it began where the rise does.
  const begun = HALF * (begins[best] ?? 0);
  for (let back = 0; back < SLOWEST && (begins[best - 1] ?? 0) > begun; back++) best--;
  return best;
}
