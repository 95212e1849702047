import { t } from '../../../l10n/translate';
import type { ByteSource } from '../byte-source';
import type { Sound } from '../sound';
import { UnreadableAudio } from '../unreadable-audio';
import { BitReader, OutOfBits } from './bit-reader';
import { DamagedFrame } from './damaged-frame';
import { type Frame, readFrame, type Stream } from './frame';

/** Type and length of the block that says what the stream is made of. */
const STREAM_INFO = { type: 0, length: 34 } as const;
/** Bytes in which a frame is looked for at first, and the most that one may have: eight channels of 65,535 samples, and more. */
const FRAME = { usual: 1 << 15, most: 1 << 23 } as const;

interface Info extends Stream {
  /** Samples of each channel; 0 where the file doesn't say. */
  readonly samples: number;
}

/**
 * A FLAC file (RFC 9639), 1 to 8 channels of up to 32 bits. One that breaks off is read as far as it goes. Every frame's own sums are
 * checked; the MD5 of the whole, which would have to be reckoned besides, is not.
 */
export async function readFlac(source: ByteSource): Promise<Sound> {
  await source.skip(4);
  const info = await readInfo(source);
  return {
    rate: info.rate,
    ...(info.samples > 0 && { seconds: info.samples / info.rate }),
    blocks: blocksOf(source, info),
  };
}

async function readInfo(source: ByteSource): Promise<Info> {
  let info: Info | undefined;
  for (let last = false; !last; ) {
    const head = new BitReader(await complete(source, 4));
    last = head.unsigned(1) === 1;
    const [type, length] = [head.unsigned(7), head.unsigned(24)];
    if (type === STREAM_INFO.type && length === STREAM_INFO.length) info = streamInfo(await complete(source, length));
    else if (!info) break;
    else await source.skip(length);
  }
  if (!info || info.rate === 0) throw new UnreadableAudio(t('The beginning of the FLAC file is damaged. Save or copy it again.'));
  return info;
}

function streamInfo(bytes: Uint8Array): Info {
  const bits = new BitReader(bytes.subarray(10));
  const [rate, , width] = [bits.unsigned(20), bits.unsigned(3), bits.unsigned(5) + 1];
  return { rate, bits: width, samples: bits.unsigned(4) * 2 ** 32 + bits.unsigned(32) };
}

async function complete(source: ByteSource, count: number): Promise<Uint8Array> {
  const bytes = await source.take(count);
  if (bytes.length < count) throw new UnreadableAudio(t('The FLAC file ends before its sound begins. Save or copy it again.'));
  return bytes;
}

async function* blocksOf(source: ByteSource, info: Info): AsyncGenerator<Float32Array> {
  let heard = 0;
  while (info.samples === 0 || heard < info.samples) {
    const frame = await nextFrame(source, info, heard / info.rate);
    if (!frame) return;
    if (frame.rate !== info.rate)
      throw new UnreadableAudio(
        t('Its samples a second change midway, {at}. Save it again at one rate.', { at: at(heard / info.rate) }),
      );
    heard += frame.samples.length;
    yield frame.samples;
  }
}

/** Undefined where the file ends. Few frames are longer than is usual, so those are read once more from more bytes. */
async function nextFrame(source: ByteSource, info: Info, seconds: number): Promise<Frame | undefined> {
  for (let size: number = FRAME.usual; size <= FRAME.most; size *= 2) {
    const bytes = await source.peek(size);
    if (bytes.length === 0) return undefined;
    try {
      const frame = readFrame(bytes, info);
      await source.skip(frame.size);
      return frame;
    } catch (error) {
      if (error instanceof DamagedFrame) break;
      if (!(error instanceof OutOfBits)) throw error;
      if (bytes.length < size) return undefined;
    }
  }
  throw new UnreadableAudio(t('The FLAC file is damaged {at}. Save or copy it again.', { at: at(seconds) }));
}

function at(seconds: number): string {
  return t('{seconds} seconds after its beginning', { seconds: seconds.toFixed(1) });
}
