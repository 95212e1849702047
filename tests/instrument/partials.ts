/** Amplitude of one frequency in a stretch of samples, under a Hann window (Goertzel's sum done directly). */
export function amplitude(signal: Float32Array, rate: number, hz: number, fromSeconds: number, toSeconds: number): number {
  const from = Math.round(fromSeconds * rate);
  const to = Math.min(signal.length, Math.round(toSeconds * rate));
  const turn = (2 * Math.PI * hz) / rate;
  let re = 0;
  let im = 0;
  for (let i = from; i < to; i++) {
    const weighted = (signal[i] as number) * (1 - Math.cos((2 * Math.PI * (i - from)) / (to - from)));
    re += weighted * Math.cos(turn * i);
    im += weighted * Math.sin(turn * i);
  }
  return (2 * Math.hypot(re, im)) / (to - from);
}

/** Amplitudes of partials 1 to `count` of `hz`; index 0 is unused. */
export function partials(signal: Float32Array, rate: number, hz: number, count: number, from: number, to: number): number[] {
  return Array.from({ length: count + 1 }, (_, n) => (n === 0 ? 0 : amplitude(signal, rate, n * hz, from, to)));
}
