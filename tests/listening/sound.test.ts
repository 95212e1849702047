import { describe, expect, test } from 'vitest';
import { openSound } from '../../server/listening/audio/sound';
import { UnreadableAudio } from '../../server/listening/audio/unreadable-audio';
import { framesOf } from '../../server/listening/frames';

interface Shape {
  readonly code?: number;
  readonly bits?: number;
  readonly channels?: number;
  readonly rate?: number;
  readonly claims?: number;
}

/** A tenth of a second of a 441 Hz sine as WAV. */
function wav({ code = 1, bits = 16, channels = 1, rate = 44_100, claims }: Shape = {}): Uint8Array {
  const count = rate / 10;
  const size = (count * channels * bits) / 8;
  const view = new DataView(new ArrayBuffer(44 + size));
  const text = (at: number, word: string) => {
    for (const [i, letter] of [...word].entries()) view.setUint8(at + i, letter.charCodeAt(0));
  };
  text(0, 'RIFF');
  view.setUint32(4, 36 + size, true);
  text(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, code, true);
  view.setUint16(22, channels, true);
  view.setUint32(24, rate, true);
  view.setUint16(34, bits, true);
  text(36, 'data');
  view.setUint32(40, claims ?? size, true);
  for (let i = 0; i < count; i++) {
    const value = 0.5 * Math.sin((2 * Math.PI * 441 * i) / rate);
    for (let channel = 0; channel < channels; channel++) {
      const at = 44 + ((i * channels + channel) * bits) / 8;
      if (code === 3 && bits === 32) view.setFloat32(at, value, true);
      else if (code === 3) view.setFloat64(at, value, true);
      else if (bits === 8) view.setUint8(at, 128 + Math.round(127 * value));
      else if (bits === 16) view.setInt16(at, Math.round(32767 * value), true);
      else if (bits === 24) {
        const whole = Math.round(8388607 * value);
        view.setUint16(at, whole & 0xffff, true);
        view.setInt8(at + 2, whole >> 16);
      } else view.setInt32(at, Math.round(2147483647 * value), true);
    }
  }
  return new Uint8Array(view.buffer);
}

/** As a file arrives: in blocks of a size that fits nothing. */
async function* blocks(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += 1013) yield bytes.subarray(at, at + 1013);
}

async function samplesOf(bytes: Uint8Array): Promise<{ readonly rate: number; readonly samples: readonly number[] }> {
  const sound = await openSound(blocks(bytes));
  const samples: number[] = [];
  for await (const block of sound.blocks) samples.push(...block);
  return { rate: sound.rate, samples };
}

describe('a recording is read as it is packed', () => {
  test.each<Shape>([
    {},
    { bits: 8 },
    { bits: 24 },
    { bits: 32 },
    { code: 3, bits: 32 },
    { code: 3, bits: 64 },
    { channels: 2 },
    { channels: 2, bits: 24, rate: 48_000 },
    { rate: 96_000 },
    { claims: 0 },
    { claims: 0xffff_ffff },
  ])('%o', async (shape) => {
    const { rate, samples } = await samplesOf(wav(shape));
    expect(samples).toHaveLength(rate / 10);
    for (let i = 0; i < samples.length; i += 97)
      expect(samples[i]).toBeCloseTo(0.5 * Math.sin((2 * Math.PI * 441 * i) / rate), shape.bits === 8 ? 1 : 3);
  });

  test('one that breaks off is read as far as it goes', async () => {
    const whole = wav();
    expect((await samplesOf(whole.subarray(0, 44 + 2001))).samples).toHaveLength(1000);
  });

  test('numbers that are none are silence', async () => {
    const bytes = wav({ code: 3, bits: 32 });
    new DataView(bytes.buffer).setFloat32(48, Number.NaN, true);
    expect((await samplesOf(bytes)).samples[1]).toBe(0);
  });
});

describe('what is no recording says so', () => {
  const ascii = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
  const header = wav().subarray(0, 44);
  const changed = (at: number, byte: number) => Uint8Array.from(wav(), (each, i) => (i === at ? byte : each));
  test.each<[string, Uint8Array, RegExp]>([
    ['nothing at all', new Uint8Array(0), /empty/],
    ['text', ascii('Dear diary, today I practised.'), /neither a WAV nor a FLAC file/],
    ['MP3', ascii('ID3\u0003 and so on'), /an MP3 file, and only WAV and FLAC are read/],
    ['a WAV that ends before its sound', header.subarray(0, 30), /damaged|ends before/],
    ['a huge header', changed(17, 0xff), /damaged/],
    ['a packing nobody knows', changed(20, 85), /packed in a way/],
    ['no channels', changed(22, 0), /packed in a way/],
    ['a telephone', wav({ rate: 8000 }), /8000 samples a second/],
  ])('%s', async (_, bytes, says) => {
    const reading = samplesOf(bytes);
    await expect(reading).rejects.toThrow(UnreadableAudio);
    await expect(reading).rejects.toThrow(says);
  });

  test('cut anywhere, with any byte changed, it is read or refused, never worse', async () => {
    const whole = wav();
    for (let at = 0; at < 60; at++)
      for (const bytes of [whole.subarray(0, at), changed(at, 0), changed(at, 255)])
        await samplesOf(bytes).catch((error: unknown) => expect(error).toBeInstanceOf(UnreadableAudio));
  });
});

test('the frames of a sine have its pitch, whatever the rate', async () => {
  for (const rate of [44_100, 48_000, 96_000]) {
    const frames = await framesOf(await openSound(blocks(wav({ rate }))));
    expect(frames.count).toBe(10);
    expect(1200 * Math.log2((frames.hz[5 * 28] as number) / 441)).toBeCloseTo(0, 0);
  }
});
