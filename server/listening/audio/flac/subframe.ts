import type { BitReader } from './bit-reader';
import { DamagedFrame } from './damaged-frame';

/** Predictors without coefficients of their own, by order (RFC 9639, table 21). */
const FIXED: readonly (readonly number[])[] = [[], [1], [2, -1], [3, -3, 1], [4, -6, 4, -1]];

/** One channel of a frame: so many samples of so many bits (RFC 9639, 9.2). Doubles hold every sum of the widest samples exactly. */
export function readSubframe(bits: BitReader, count: number, width: number): Float64Array {
  if (bits.unsigned(1) === 1) throw new DamagedFrame();
  const type = bits.unsigned(6);
  const wasted = bits.unsigned(1) === 1 ? bits.unary() + 1 : 0;
  if (wasted >= width) throw new DamagedFrame();
  const samples = new Float64Array(count);
  readSamples(bits, type, samples, width - wasted);
  if (wasted > 0) for (let i = 0; i < count; i++) samples[i] = (samples[i] as number) * 2 ** wasted;
  return samples;
}

function readSamples(bits: BitReader, type: number, samples: Float64Array, width: number): void {
  if (type === 0) samples.fill(bits.signed(width));
  else if (type === 1) readPlain(bits, samples, samples.length, width);
  else if (type >= 8 && type <= 12)
    predicted(bits, samples, width, type - 8, () => ({ coefficients: FIXED[type - 8] ?? [], shift: 0 }));
  else if (type >= 32) predicted(bits, samples, width, type - 31, () => readPredictor(bits, type - 31));
  else throw new DamagedFrame();
}

function readPlain(bits: BitReader, samples: Float64Array, count: number, width: number): void {
  for (let i = 0; i < count; i++) samples[i] = bits.signed(width);
}

interface Predictor {
  /** Of the sample before, the one before that, and so on. */
  readonly coefficients: readonly number[];
  readonly shift: number;
}

function readPredictor(bits: BitReader, order: number): Predictor {
  const precision = bits.unsigned(4) + 1;
  const shift = bits.signed(5);
  if (precision === 16 || shift < 0) throw new DamagedFrame();
  return { coefficients: Array.from({ length: order }, () => bits.signed(precision)), shift };
}

/** The first samples as they are, of each other one what the predictor left. */
function predicted(bits: BitReader, samples: Float64Array, width: number, order: number, read: () => Predictor): void {
  if (order > samples.length) throw new DamagedFrame();
  readPlain(bits, samples, order, width);
  const { coefficients, shift } = read();
  readResidual(bits, samples, order);
  const scale = 2 ** -shift;
  for (let i = order; i < samples.length; i++) {
    let sum = 0;
    for (let j = 0; j < order; j++) sum += (coefficients[j] as number) * (samples[i - 1 - j] as number);
    samples[i] = (samples[i] as number) + Math.floor(sum * scale);
  }
}

/** Rice codes in partitions, each with its own parameter or plain numbers (RFC 9639, 9.2.7). */
function readResidual(bits: BitReader, samples: Float64Array, order: number): void {
  const method = bits.unsigned(2);
  if (method > 1) throw new DamagedFrame();
  const width = method === 0 ? 4 : 5;
  const plainly = 2 ** width - 1;
  const partitions = 2 ** bits.unsigned(4);
  const size = samples.length / partitions;
  if (!Number.isInteger(size) || size < order) throw new DamagedFrame();
  for (let partition = 0, at = order; partition < partitions; partition++) {
    const end = (partition + 1) * size;
    const parameter = bits.unsigned(width);
    const plain = parameter === plainly ? bits.unsigned(5) : 0;
    for (; at < end; at++) samples[at] = parameter < plainly ? readRice(bits, parameter) : plain > 0 ? bits.signed(plain) : 0;
  }
}

/** Even numbers are positive, odd ones negative. */
function readRice(bits: BitReader, parameter: number): number {
  const folded = bits.unary() * 2 ** parameter + bits.unsigned(parameter);
  return folded % 2 === 0 ? folded / 2 : -(folded + 1) / 2;
}
