import { t } from '../../l10n/translate';
import type { ByteSource } from './byte-source';
import type { Sound } from './sound';
import { UnreadableAudio } from './unreadable-audio';

/** Codes of `fmt ` (Microsoft and IBM, Multimedia Programming Interface, 1991; `EXTENSIBLE` says the real one further on). */
const PCM = 1;
const FLOAT = 3;
const EXTENSIBLE = 0xfffe;
/** Longest `fmt ` chunk anybody writes; a larger number is damage. */
const LONGEST_FORMAT = 4096;
const MOST_CHANNELS = 32;
/** Frames read at once. */
const BLOCK = 16_384;

interface Format {
  readonly code: number;
  readonly channels: number;
  readonly rate: number;
  readonly bits: number;
}

/** One sample as it stands in the file, -1 to 1. */
type Decode = (view: DataView, at: number) => number;

const DECODE: Readonly<Record<string, Decode>> = {
  [`${PCM} 8`]: (view, at) => (view.getUint8(at) - 128) / 128,
  [`${PCM} 16`]: (view, at) => view.getInt16(at, true) / 0x8000,
  [`${PCM} 24`]: (view, at) => ((view.getInt8(at + 2) << 16) | view.getUint16(at, true)) / 0x80_0000,
  [`${PCM} 32`]: (view, at) => view.getInt32(at, true) / 0x8000_0000,
  [`${FLOAT} 32`]: (view, at) => finite(view.getFloat32(at, true)),
  [`${FLOAT} 64`]: (view, at) => finite(view.getFloat64(at, true)),
};

/** A WAV file (RIFF): whole numbers of 8 to 32 bits, or floating point, any number of channels. One that breaks off is read as far as it goes. */
export async function readWav(source: ByteSource): Promise<Sound> {
  await source.skip(12);
  let format: Format | undefined;
  for (;;) {
    const head = await source.take(8);
    if (head.length < 8) throw new UnreadableAudio(t('The WAV file ends before its sound begins. Save or copy it again.'));
    const name = String.fromCharCode(...head.subarray(0, 4));
    const size = viewOf(head).getUint32(4, true);
    if (name === 'data') return soundOf(source, format, size);
    if (name === 'fmt ') format = await readFormat(source, size);
    else await source.skip(size + (size % 2));
  }
}

async function readFormat(source: ByteSource, size: number): Promise<Format> {
  const bytes = size <= LONGEST_FORMAT ? await source.take(size + (size % 2)) : new Uint8Array(0);
  if (bytes.length < 16) throw new UnreadableAudio(t('The beginning of the WAV file is damaged. Save or copy it again.'));
  const view = viewOf(bytes);
  const code = view.getUint16(0, true);
  return {
    code: code === EXTENSIBLE && bytes.length >= 26 ? view.getUint16(24, true) : code,
    channels: view.getUint16(2, true),
    rate: view.getUint32(4, true),
    bits: view.getUint16(14, true),
  };
}

function soundOf(source: ByteSource, format: Format | undefined, size: number): Sound {
  if (!format) throw new UnreadableAudio(t('The WAV file does not say what its sound is made of. Save it again.'));
  const { code, channels, rate, bits } = format;
  const decode = DECODE[`${code} ${bits}`];
  if (!decode || channels < 1 || channels > MOST_CHANNELS)
    throw new UnreadableAudio(
      t(
        'The sound in this WAV file is packed in a way that is not read here. Save it as WAV with 16 or 24 bits, mono or stereo.',
      ),
    );
  const frame = (channels * bits) / 8;
  // A recorder that could not go back to write the length leaves 0 or the largest number there.
  const known = size > 0 && size < 0xffff_fff0;
  return {
    rate,
    ...(known && { seconds: size / frame / rate }),
    blocks: blocksOf(source, known ? size : Number.POSITIVE_INFINITY, frame, channels, bits / 8, decode),
  };
}

async function* blocksOf(
  source: ByteSource,
  size: number,
  frame: number,
  channels: number,
  width: number,
  decode: Decode,
): AsyncGenerator<Float32Array> {
  let left = size;
  while (left >= frame) {
    const bytes = await source.take(Math.min(left, BLOCK * frame));
    left -= bytes.length;
    const count = Math.floor(bytes.length / frame);
    if (count === 0) return;
    const view = viewOf(bytes);
    const block = new Float32Array(count);
    for (let i = 0; i < count; i++) {
      let sum = 0;
      for (let channel = 0; channel < channels; channel++) sum += decode(view, i * frame + channel * width);
      block[i] = sum / channels;
    }
    yield block;
  }
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

function finite(value: number): number {
  return Number.isFinite(value) ? Math.max(-1e3, Math.min(1e3, value)) : 0;
}
