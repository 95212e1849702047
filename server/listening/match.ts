import { COMPRESSION, type Frames, PEAKS } from './frames';

/** A note may be off by this much and still be that note, cents. */
export const WIDE = 70;
/** Partials of one string lie this close to whole multiples once its pitch is known, cents. */
const NARROW = 25;
/** Low partials that a pitch stands and falls with; the n-th counts 1/n. */
const TELLING = 6;
/** A partial is there when it has this weight of the strongest (about 12 dB below). */
const THERE = 0.35;
const HIGHEST = 10_000;
const CENTS = 1200 / Math.LN2;

/**
 * How far above `hz` a pitch near it lies in a frame, cents, by its low partials; undefined where none of them is there.
 *
 * @param beside a pitch sounding with it, whose partials don't count
 */
export function centsAbove(frames: Frames, frame: number, hz: number, beside?: number): number | undefined {
  let sum = 0;
  let weights = 0;
  let seen = 0;
  const first = frame * PEAKS;
  for (let i = first; i < first + PEAKS; i++) {
    const peak = frames.hz[i] as number;
    if (peak === 0) break;
    const ratio = peak / hz;
    const partial = Math.round(ratio);
    if (partial < 1 || partial > TELLING || seen & (1 << partial)) continue;
    const cents = CENTS * Math.log(ratio / partial);
    if (cents > WIDE || cents < -WIDE) continue;
    if (beside !== undefined && isPartial(peak, beside, 2 * NARROW)) continue;
    seen |= 1 << partial;
    // An error in Hz weighs less the higher the partial.
    const weight = (frames.weight[i] as number) * partial;
    sum += weight * cents;
    weights += weight;
  }
  return weights > 0 ? sum / weights : undefined;
}

/**
 * How well some pitches, sounding together, account for a frame, 0 to 1: the share of all that is heard which are partials
 * of theirs, times the share of their telling partials that are heard. So neither the octave below (which accounts for
 * everything, but misses every other partial) nor the one above (which leaves half unaccounted for) passes for a note. Harmonic sums as in
 * A. Klapuri, Multiple fundamental frequency estimation by summing harmonic amplitudes, ISMIR 2006 (from memory), weighed both ways.
 *
 * @param hz one to four pitches
 * @param cents how far each lies above that
 */
function match(frames: Frames, frame: number, hz: readonly number[], cents: readonly number[]): number {
  let all = 0;
  let accounted = 0;
  const first = frame * PEAKS;
  const exact = hz.map((each, i) => each * 2 ** ((cents[i] as number) / 1200));
  const heard = hz.map(() => 0);
  const seen = hz.map(() => 0);
  for (let i = first; i < first + PEAKS; i++) {
    const peak = frames.hz[i] as number;
    if (peak === 0) break;
    const weight = frames.weight[i] as number;
    all += weight;
    let own = false;
    for (let p = 0; p < exact.length; p++) {
      const ratio = peak / (exact[p] as number);
      const partial = Math.round(ratio);
      if (partial < 1) continue;
      const off = Math.abs(CENTS * (ratio / partial - 1));
      if (off > Math.min(NARROW, 300 / partial)) continue;
      own = true;
      if (partial > TELLING || (seen[p] as number) & (1 << partial)) continue;
      seen[p] = (seen[p] as number) | (1 << partial);
      heard[p] = (heard[p] as number) + Math.min(1, weight / THERE) / partial;
    }
    if (own) accounted += weight;
  }
  if (all === 0) return 0;
  let least = 1;
  let mean = 0;
  for (let p = 0; p < exact.length; p++) {
    const share = (heard[p] as number) / telling(exact[p] as number);
    least = Math.min(least, share);
    mean += share / exact.length;
  }
  return (accounted / all) * ((least + mean) / 2);
}

/** The same less what it costs to be off the pitch: `most` where one is as far off as a note may be. */
export function matchOff(frames: Frames, frame: number, hz: readonly number[], cents: readonly number[], most: number): number {
  const off = cents.reduce((far, each) => Math.max(far, Math.abs(each)), 0) / WIDE;
  return match(frames, frame, hz, cents) - most * off * off;
}

/** What the telling partials of a pitch count together, those below the highest that is listened to. */
function telling(hz: number): number {
  let sum = 0;
  for (let partial = 1; partial <= TELLING && partial * hz < HIGHEST; partial++) sum += 1 / partial;
  return sum || 1;
}

/** Amplitude of a pitch's low partials in a frame, 1 for a sine of full scale; those that another pitch has too don't count. */
export function loudness(frames: Frames, frame: number, hz: number, beside: readonly number[]): number {
  let sum = 0;
  for (let i = frame * PEAKS; i < (frame + 1) * PEAKS; i++) {
    const peak = frames.hz[i] as number;
    if (peak === 0) break;
    if (!isPartial(peak, hz, 2 * NARROW) || beside.some((other) => isPartial(peak, other, 2 * NARROW))) continue;
    sum += (frames.top[frame] as number) * (frames.weight[i] as number) ** (1 / COMPRESSION);
  }
  return sum;
}

/** True for one of the low partials of a pitch, within some cents. */
export function isPartial(peak: number, hz: number, cents: number): boolean {
  const partial = Math.round(peak / hz);
  return partial >= 1 && partial <= 2 * TELLING && Math.abs(CENTS * Math.log(peak / hz / partial)) < cents;
}
