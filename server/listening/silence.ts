import type { Frames } from './frames';

/** dB over the noise around it that the strongest partial of a note has at least. */
const LEAST_CLEAR = 18;
/** dB below the loud frames around it, and of the whole recording, at which nothing is played. */
const BELOW_AROUND = 27;
const BELOW_ALL = 45;
/** Frames on either side that are around. */
const AROUND = 150;
/** The level that a tenth of the frames pass. */
const LOUD = 0.9;

/** For every frame 1 where nothing is played: noise only, or the room dying away. */
export function silenceOf({ count, level, clear }: Frames): Uint8Array {
  const silent = new Uint8Array(count);
  const all = quantile(level, LOUD);
  for (let block = 0; block < count; block += AROUND) {
    const around = quantile(level.subarray(Math.max(0, block - AROUND), block + 2 * AROUND), LOUD);
    const least = Math.max(around - BELOW_AROUND, all - BELOW_ALL);
    for (let i = block; i < Math.min(count, block + AROUND); i++)
      silent[i] = (clear[i] as number) < LEAST_CLEAR || (level[i] as number) < least ? 1 : 0;
  }
  return silent;
}

function quantile(values: Float32Array, share: number): number {
  const sorted = values.slice().sort();
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;
}
