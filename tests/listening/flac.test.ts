import { describe, expect, test } from 'vitest';
import { openSound } from '../../server/listening/audio/sound';
import { UnreadableAudio } from '../../server/listening/audio/unreadable-audio';

/** The worked examples of RFC 9639 (Free Lossless Audio Codec, IETF 2024), appendix D: the files, and the samples that it finds in them. */
const ONE = `664c6143 80000022 10001000 00000f00 000f0ac4 42f00000 00013e84 b41807dc 69030758 6a3dad1a 2e0ffff8 69180000 bf0358fd 03128baa 9a`;
const TWO = `664c6143 00000022 00100010 00001700 00440ac4 42f00000 0013d5b0 564975e9 8b8d8b93 0422757b 81030300 00120000 00000000 00000000
00000000 00000010 0400003a 20000000 72656665 72656e63 65206c69 62464c41 4320312e 332e3320 32303139 30383034 01000000 0e000000 5449544c
453dd7a9 d79cd795 d79d8100 00060000 00000000 fff86998 000f9912 08670162 3d144299 8f5df70d 6fe00c17 caeb2100 0ee7a77a 24a1590c 1217b603
097b784f aa9a33d2 85e070ad 5b1b4851 b4010d99 d2cd1a68 f1e6b810 fff86918 0102a402 c382c40b c14a03ee 48dd03b6 7c1330`;
const THREE = `664c6143 80000022 10001000 00001f00 001f07d0 00700000 0018f8f9 e396f5cb cfc6dc80 7f997790 6b32fff8 68020017 e944004f 6f313d10
47d227cb 6d090831 452bdc28 22228057 a3`;
/** Left and right of the second, its last three as in the line-up for its MD5. */
const LEFT = [
  10372, 18041, 14942, 17876, 15627, 17899, 16242, 18077, 16824, 18263, 17295, -14418, -15201, -14508, -15195, -14818, -15486,
  -15349, -16054,
];
const RIGHT = [
  6070, 10545, 8743, 10449, 9143, 10463, 9502, 10569, 9840, 10680, 10113, -8428, -8895, -8476, -8896, -8653, -9072, -8958, -9410,
];
const MONO = [0, 79, 111, 78, 8, -61, -90, -68, -13, 42, 67, 53, 13, -27, -46, -38, -12, 14, 24, 19, 6, -4, -5, 0];

const bytesOf = (hex: string) => Uint8Array.from(Buffer.from(hex.replace(/\s/g, ''), 'hex'));

/** As a file arrives, in blocks that end anywhere. */
async function read(bytes: Uint8Array): Promise<{ readonly rate: number; readonly samples: readonly number[] }> {
  async function* blocks(): AsyncGenerator<Uint8Array> {
    for (let at = 0; at < bytes.length; at += 7) yield bytes.subarray(at, at + 7);
  }
  const sound = await openSound(blocks());
  const samples: number[] = [];
  for await (const block of sound.blocks) samples.push(...block);
  expect(sound.seconds ?? samples.length / sound.rate).toBeGreaterThanOrEqual(samples.length / sound.rate);
  return { rate: sound.rate, samples };
}

describe('the worked examples of RFC 9639, appendix D', () => {
  test('D.1: plain samples with wasted bits', async () => {
    expect(await read(bytesOf(ONE))).toEqual({ rate: 44_100, samples: [(25_588 + 10_416) / 2 / 2 ** 15] });
  });

  test('D.2: fixed predictors, left as side and right, a last block of three, other blocks before the sound', async () => {
    const { rate, samples } = await read(bytesOf(TWO));
    expect(rate).toBe(44_100);
    expect(samples).toEqual(LEFT.map((left, i) => (left + RIGHT[i]!) / 2 / 2 ** 15));
  });

  test('D.3: a linear predictor of the third order, four partitions, one of them escaped', async () => {
    expect(await read(bytesOf(THREE))).toEqual({ rate: 32_000, samples: MONO.map((sample) => sample / 2 ** 7) });
  });
});

describe('a damaged file says so', () => {
  const changed = (at: number, byte: number) => Uint8Array.from(bytesOf(TWO), (each, i) => (i === at ? byte : each));
  const SECOND = 0xcc;
  test.each<[string, Uint8Array, RegExp]>([
    ['it ends in its heading', bytesOf(TWO).subarray(0, 30), /ends before its sound begins/],
    ['it does not say what it is made of', changed(4, 1), /beginning of the FLAC file is damaged/],
    [
      'no samples a second',
      changed(19, 0).map((byte, i) => (i === 18 || i === 20 ? 0 : byte)),
      /beginning of the FLAC file is damaged/,
    ],
    ['one bit of its sound is wrong', changed(0x93, 0x15), /damaged 0\.0 seconds after its beginning/],
    ['a frame begins as none does', changed(SECOND, 0), /damaged 0\.0 seconds/],
    ['the heading of a frame is wrong', changed(SECOND + 4, 2), /damaged/],
  ])('%s', async (_, bytes, says) => {
    const reading = read(bytes);
    await expect(reading).rejects.toThrow(UnreadableAudio);
    await expect(reading).rejects.toThrow(says);
  });

  test('one that breaks off is read as far as it goes', async () => {
    const whole = await read(bytesOf(TWO));
    expect((await read(bytesOf(TWO).subarray(0, SECOND + 9))).samples).toEqual(whole.samples.slice(0, 16));
  });

  test('cut anywhere, with any bit changed, it is read or refused, and never read otherwise than it was', async () => {
    const whole = bytesOf(TWO);
    const { samples } = await read(whole);
    for (let at = 42; at < whole.length; at++)
      for (const bytes of [whole.subarray(0, at), changed(at, whole[at]! ^ 1), changed(at, whole[at]! ^ 0x80)])
        await read(bytes).then(
          (found) => expect(found.samples).toEqual(samples.slice(0, found.samples.length)),
          (error: unknown) => expect(error).toBeInstanceOf(UnreadableAudio),
        );
  });
});
