/** Samples as a WAV file of one channel and 16 bits. */
export function wavOf(samples: Float32Array, rate: number): Uint8Array {
  const bytes = new Uint8Array(44 + 2 * samples.length);
  const view = new DataView(bytes.buffer);
  const word = (at: number, text: string) => bytes.set(new TextEncoder().encode(text), at);
  word(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  word(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, rate, true);
  view.setUint32(28, 2 * rate, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  word(36, 'data');
  view.setUint32(40, 2 * samples.length, true);
  for (const [i, sample] of samples.entries())
    view.setInt16(44 + 2 * i, Math.round(32_767 * Math.max(-1, Math.min(1, sample))), true);
  return bytes;
}
