import { describe, expect, test } from 'vitest';
import { TooLong, wavFile } from '../../server/exchange/wav';
import { solvedScene } from './solved';

function samplesOf(bytes: Uint8Array): Float64Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  return Float64Array.from({ length: view.getUint32(40, true) / 2 }, (_, i) => view.getInt16(44 + 2 * i, true) / 32_768);
}

/** Strength of one frequency in a stretch of sound under a Hann window (the sum that a Fourier transform takes). */
function strength(samples: Float64Array, from: number, to: number, hz: number): number {
  let re = 0;
  let im = 0;
  for (let i = from; i < to; i++) {
    const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * (i - from)) / (to - from));
    const turn = (2 * Math.PI * hz * i) / 44_100;
    re += window * (samples[i] as number) * Math.cos(turn);
    im += window * (samples[i] as number) * Math.sin(turn);
  }
  return Math.hypot(re, im);
}

/** The strongest frequency within 40 cents of the one expected, to half a cent. */
function pitchNear(samples: Float64Array, from: number, to: number, expected: number): number {
  let best = { hz: 0, strength: -1 };
  for (let cents = -40; cents <= 40; cents += 0.5) {
    const hz = expected * 2 ** (cents / 1200);
    const here = strength(samples, from, to, hz);
    if (here > best.strength) best = { hz, strength: here };
  }
  return best.hz;
}

describe('a WAV file', () => {
  test('has the header of the format (Microsoft and IBM, Multimedia Programming Interface, 1991)', () => {
    const bytes = wavFile(solvedScene('tempo: 1/4 = 120\n1/4 D6o'));
    const view = new DataView(bytes.buffer);
    const word = (at: number) => String.fromCharCode(...bytes.subarray(at, at + 4));
    expect([word(0), word(8), word(12), word(36)]).toEqual(['RIFF', 'WAVE', 'fmt ', 'data']);
    expect([view.getUint32(4, true), view.getUint16(20, true), view.getUint16(22, true)]).toEqual([bytes.length - 8, 1, 1]);
    expect([view.getUint32(24, true), view.getUint16(34, true)]).toEqual([44_100, 16]);
    expect(view.getUint32(40, true)).toBe(2 * Math.ceil(0.5 * 44_100));
  });

  test('sounds the harmonic at its true pitch, far above the stopped note that it is played on', () => {
    const scene = solvedScene('tempo: 1/4 = 60\n1/4 A4<>D5 [III 1-4]');
    const samples = samplesOf(wavFile(scene));
    const note = scene.events[0]?.notes[0];
    const expected = note?.hz ?? 0;
    const found = pitchNear(samples, 22_050, 40_000, expected);
    expect(Math.abs(1200 * Math.log2(found / expected))).toBeLessThan(4);
    // Fourth harmonic: two octaves above the stopped note (common practice, no source), whose own pitch is all but gone.
    expect(strength(samples, 22_050, 40_000, found)).toBeGreaterThan(20 * strength(samples, 22_050, 40_000, found / 4));
  });

  test('is silent in rests, never clips, and is the same every time', () => {
    const text = 'tempo: 1/4 = 240\nff 1/4 D6o+A6o rest G3+D4';
    const bytes = wavFile(solvedScene(text));
    expect(wavFile(solvedScene(text))).toEqual(bytes);
    const samples = samplesOf(bytes);
    expect(samples.subarray(11_100, 22_000).every((s) => s === 0)).toBe(true);
    expect(samples.reduce((most, s) => Math.max(most, Math.abs(s)), 0)).toBeLessThan(0.9);
    expect(samples.reduce((most, s) => Math.max(most, Math.abs(s)), 0)).toBeGreaterThan(0.2);
  });

  test('tells how far it is, and refuses what is longer than half an hour', () => {
    const told: string[] = [];
    wavFile(solvedScene('tempo: 1/4 = 240\n1/8 D5 E5'), (done, all) => told.push(`${done}/${all}`));
    expect(told).toEqual(['1/2', '2/2']);
    const long = solvedScene(`tempo: 1/4 = 5\n${'4/1 D5 '.repeat(10)}`);
    expect(() => wavFile(long)).toThrow(TooLong);
    expect(() => wavFile(long)).toThrow(/lasts 32 minutes; at most 30/);
  });
});
