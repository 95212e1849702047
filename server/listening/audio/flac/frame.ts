import { BitReader } from './bit-reader';
import { crc8, crc16 } from './crc';
import { DamagedFrame } from './damaged-frame';
import { readSubframe } from './subframe';

/** What a frame leaves to the whole stream. */
export interface Stream {
  /** Samples a second. */
  readonly rate: number;
  /** Bits of a sample. */
  readonly bits: number;
}

export interface Frame {
  /** All channels mixed into one, -1 to 1. */
  readonly samples: Float32Array;
  readonly rate: number;
  /** Bytes of the file. */
  readonly size: number;
}

const SYNC = 0b111111111111100;
/** By code; those that are missing stand in the header or for the whole stream (RFC 9639, 9.1.1, 9.1.2 and 9.1.4). */
const BLOCK_SIZES: Readonly<Record<number, number>> = {
  1: 192,
  ...Object.fromEntries([2, 3, 4, 5].map((code) => [code, 144 * 2 ** code])),
  ...Object.fromEntries([8, 9, 10, 11, 12, 13, 14, 15].map((code) => [code, 2 ** code])),
};
const RATES: Readonly<Record<number, number>> = {
  1: 88_200,
  2: 176_400,
  3: 192_000,
  4: 8000,
  5: 16_000,
  6: 22_050,
  7: 24_000,
  8: 32_000,
  9: 44_100,
  10: 48_000,
  11: 96_000,
};
const WIDTHS: Readonly<Record<number, number>> = { 1: 8, 2: 12, 4: 16, 5: 20, 6: 24, 7: 32 };
/** Codes of two channels told by one and by what the left has over the right, or by their middle and that. */
const LEFT_SIDE = 8;
const SIDE_RIGHT = 9;
const MIDDLE_SIDE = 10;
/** What each of the two counts for in the mean of left and right. The middle has lost at most half a step. */
const TOGETHER: Readonly<Record<number, readonly number[]>> = {
  [LEFT_SIDE]: [1, -1 / 2],
  [SIDE_RIGHT]: [1 / 2, 1],
  [MIDDLE_SIDE]: [1, 0],
};

/**
 * The frame that some bytes begin with (RFC 9639, 9).
 *
 * @throws DamagedFrame
 * @throws OutOfBits where it is longer than the bytes
 */
export function readFrame(bytes: Uint8Array, stream: Stream): Frame {
  const bits = new BitReader(bytes);
  const { count, rate, channels, width } = readHeader(bits, bytes, stream);
  const two = channels >= LEFT_SIDE;
  const parts = Array.from({ length: two ? 2 : channels + 1 }, (_, i) => {
    const side = two && i === (channels === SIDE_RIGHT ? 0 : 1);
    return readSubframe(bits, count, width + (side ? 1 : 0));
  });
  bits.align();
  const sum = crc16(bytes.subarray(0, bits.read));
  if (bits.unsigned(16) !== sum) throw new DamagedFrame();
  return { samples: mixed(parts, channels, 2 ** (width - 1)), rate, size: bits.read };
}

function readHeader(bits: BitReader, bytes: Uint8Array, stream: Stream) {
  if (bits.unsigned(15) !== SYNC) throw new DamagedFrame();
  bits.unsigned(1);
  const [sizeCode, rateCode, channels, widthCode] = [bits.unsigned(4), bits.unsigned(4), bits.unsigned(4), bits.unsigned(3)];
  const reserved = bits.unsigned(1);
  passNumber(bits);
  const count = sizeCode === 6 || sizeCode === 7 ? bits.unsigned(sizeCode === 6 ? 8 : 16) + 1 : BLOCK_SIZES[sizeCode];
  const rate = readRate(bits, rateCode, stream);
  const width = widthCode === 0 ? stream.bits : WIDTHS[widthCode];
  const sum = crc8(bytes.subarray(0, bits.read));
  if (bits.unsigned(8) !== sum || reserved === 1 || channels > MIDDLE_SIDE) throw new DamagedFrame();
  if (count === undefined || rate === undefined || width === undefined) throw new DamagedFrame();
  return { count, rate, channels, width };
}

/** The number of the frame or of its first sample, written as UTF-8 writes a letter, up to seven bytes; frames come in order anyway. */
function passNumber(bits: BitReader): void {
  const first = bits.unsigned(8);
  const more = Math.max(0, Math.clz32(~(first << 24)) - 1);
  for (let i = 0; i < more; i++) bits.unsigned(8);
}

function readRate(bits: BitReader, code: number, stream: Stream): number | undefined {
  if (code === 0) return stream.rate;
  if (code === 12) return 1000 * bits.unsigned(8);
  if (code === 13) return bits.unsigned(16);
  if (code === 14) return 10 * bits.unsigned(16);
  return RATES[code];
}

function mixed(parts: readonly Float64Array[], channels: number, full: number): Float32Array {
  const together = TOGETHER[channels] ?? parts.map(() => 1 / parts.length);
  const samples = new Float32Array(parts[0]?.length ?? 0);
  for (const [channel, share] of together.entries()) {
    const part = parts[channel] as Float64Array;
    for (let i = 0; i < samples.length; i++) samples[i] = (samples[i] as number) + (share * (part[i] as number)) / full;
  }
  return samples;
}
