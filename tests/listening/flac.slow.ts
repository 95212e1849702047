import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openSound, type Sound } from '../../server/listening/audio/sound';
import { Chance } from './chance';

/** Debian's `flac` (the reference encoder, libFLAC) packs what we then unpack. `.ci/run` installs it. */
let place = '';
beforeAll(() => {
  place = mkdtempSync(join(tmpdir(), 'flac-'));
});
afterAll(() => rmSync(place, { recursive: true }));

interface Shape {
  readonly bits: 16 | 24;
  readonly channels: 1 | 2;
  readonly rate: number;
  readonly options: readonly string[];
}

/** Five seconds of partials, silence, noise, full scale and one value held: what each kind of subframe is for. */
function samplesOf({ bits, channels, rate }: Shape): readonly (readonly number[])[] {
  const chance = new Chance(3);
  const full = 2 ** (bits - 1);
  return Array.from({ length: 5 * rate }, (_, i) => {
    const t = i / rate;
    const kind = [
      () => 0.4 * Math.sin(2 * Math.PI * 441 * t) + 0.2 * Math.sin(2 * Math.PI * 1323 * t),
      () => 0,
      () => 0.3 * chance.normal(),
      () => (i % 200 < 100 ? 1 : -1),
      () => 0.25,
    ][Math.floor(t)]!;
    return Array.from({ length: channels }, (_, channel) =>
      Math.max(-full, Math.min(full - 1, Math.round(full * (kind() + 0.01 * channel * Math.sin(97 * t))))),
    );
  });
}

function wavOf({ bits, channels, rate }: Shape, frames: readonly (readonly number[])[]): Buffer {
  const frame = (channels * bits) / 8;
  const bytes = Buffer.alloc(44 + frame * frames.length);
  bytes.write('RIFF', 0, 'latin1');
  bytes.writeUInt32LE(bytes.length - 8, 4);
  bytes.write('WAVEfmt ', 8, 'latin1');
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(channels, 22);
  bytes.writeUInt32LE(rate, 24);
  bytes.writeUInt32LE(frame * rate, 28);
  bytes.writeUInt16LE(frame, 32);
  bytes.writeUInt16LE(bits, 34);
  bytes.write('data', 36, 'latin1');
  bytes.writeUInt32LE(bytes.length - 44, 40);
  for (const [i, sample] of frames.flat().entries()) bytes.writeIntLE(sample, 44 + (i * bits) / 8, bits / 8);
  return bytes;
}

async function read(path: string): Promise<{ readonly sound: Sound; readonly samples: Float32Array }> {
  async function* blocks(): AsyncGenerator<Uint8Array> {
    const bytes = readFileSync(path);
    for (let at = 0; at < bytes.length; at += 10_007) yield bytes.subarray(at, at + 10_007);
  }
  const sound = await openSound(blocks());
  const parts: Float32Array[] = [];
  for await (const block of sound.blocks) parts.push(block);
  const samples = new Float32Array(parts.reduce((sum, { length }) => sum + length, 0));
  parts.reduce((at, part) => {
    samples.set(part, at);
    return at + part.length;
  }, 0);
  return { sound, samples };
}

describe('what the reference encoder packs is unpacked as it was', () => {
  test.each<Shape>([
    { bits: 16, channels: 1, rate: 44_100, options: ['-0'] },
    { bits: 16, channels: 2, rate: 44_100, options: ['-5'] },
    { bits: 16, channels: 2, rate: 48_000, options: ['-8', '--padding=5000'] },
    { bits: 24, channels: 1, rate: 48_000, options: ['-8'] },
    { bits: 24, channels: 2, rate: 96_000, options: ['-8', '-e', '-p'] },
    { bits: 24, channels: 2, rate: 44_100, options: ['--lax', '-l', '32', '-b', '65535', '-r', '15'] },
    { bits: 16, channels: 2, rate: 37_800, options: ['-5', '--lax', '-b', '1000'] },
  ])('%o', async (shape) => {
    const frames = samplesOf(shape);
    writeFileSync(join(place, 'take.wav'), wavOf(shape, frames));
    execFileSync('flac', ['--silent', '--force', ...shape.options, 'take.wav'], { cwd: place });
    const { sound, samples } = await read(join(place, 'take.flac'));
    expect([sound.rate, sound.seconds, samples.length]).toEqual([shape.rate, 5, 5 * shape.rate]);
    const full = 2 ** (shape.bits - 1);
    let off = 0;
    for (const [i, frame] of frames.entries()) {
      const mean = frame.reduce((sum, sample) => sum + sample, 0) / frame.length / full;
      off = Math.max(off, Math.abs(samples[i]! - mean));
    }
    // Half a step is what the middle of two channels has lost; a Float32Array keeps 24 bits.
    expect(off * full).toBeLessThanOrEqual(shape.channels === 2 ? 0.5 : 0);
  });

  test('a stream whose length the encoder could not go back to write', async () => {
    const shape: Shape = { bits: 16, channels: 1, rate: 44_100, options: [] };
    const packed = execFileSync('flac', ['--silent', '--stdout', '-'], {
      input: wavOf(shape, samplesOf(shape)),
      maxBuffer: 1 << 24,
    });
    writeFileSync(join(place, 'stream.flac'), packed);
    const { samples } = await read(join(place, 'stream.flac'));
    expect(samples.length).toBe(5 * shape.rate);
  });
});
