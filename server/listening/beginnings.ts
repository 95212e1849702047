import { COMPRESSION, type Frames, PEAKS } from './frames';

/** Frames before and after between which partials are compared: half a window sees the change either way. */
const APART = 2;
/** Frames of the neighbourhood whose loudness a new partial is held against, and the share of it that counts for little. */
const AROUND = 100;
const LITTLE = 0.05;
/** Nats by which all partials together rise where a note certainly begins. */
const CERTAIN = 2.5;
/** A partial within this ratio is the same one: a third of a semitone. */
const SAME = 1.02;
/** What the whole spectrum's tallest rise counts for beside that. */
const RISE = 0.5;

/**
 * For every frame, 0 to 1, how much a note seems to begin there: by partials that were not there or were softer (they stand over
 * the noise), and by the rise of the whole spectrum, which sees a note played again.
 */
export function beginningsOf(frames: Frames): Float32Array {
  const begins = new Float32Array(frames.count);
  const amplitudes = Float32Array.from(
    frames.weight,
    (weight, i) => (frames.top[Math.floor(i / PEAKS)] as number) * weight ** (1 / COMPRESSION),
  );
  for (let block = 0; block < frames.count; block += AROUND) {
    const from = Math.max(0, block - AROUND);
    const to = block + 2 * AROUND;
    const little = LITTLE * (sorted(frames.top.subarray(from, to), 0.9) + 1e-6);
    const rises = frames.rise.subarray(from, to);
    const [usual, tall] = [sorted(rises, 0.5), sorted(rises, 0.97)];
    for (let frame = block; frame < Math.min(frames.count, block + AROUND); frame++) {
      const rise = Math.max(0, Math.min(1, ((frames.rise[frame] as number) - usual) / (tall - usual + 1e-6)));
      begins[frame] = Math.min(1, fresh(frames, amplitudes, frame, little) / CERTAIN + RISE * rise);
    }
  }
  return begins;
}

/** Nats by which partials are louder a little after a frame than a little before. */
function fresh(frames: Frames, amplitudes: Float32Array, frame: number, little: number): number {
  const before = Math.max(0, frame - APART) * PEAKS;
  const after = Math.min(frames.count - 1, frame + APART) * PEAKS;
  let sum = 0;
  for (let i = after; i < after + PEAKS; i++) {
    const hz = frames.hz[i] as number;
    if (hz === 0) break;
    const now = amplitudes[i] as number;
    let then = 0;
    for (let j = before; j < before + PEAKS; j++) {
      const other = frames.hz[j] as number;
      if (other === 0) break;
      if (other < hz * SAME && hz < other * SAME) then = Math.max(then, amplitudes[j] as number);
    }
    if (now > then) sum += Math.log((now + little) / (then + little));
  }
  return sum;
}

function sorted(values: Float32Array, share: number): number {
  return values.slice().sort()[Math.floor(share * values.length)] ?? 0;
}
