import FFT from 'fft.js';
import type { Sound } from './audio/sound';

/** Partials kept of every frame: those of two notes at once. */
export const PEAKS = 28;

/** What is heard of a recording, one frame every hundredth of a second; times are those of the frame's middle. */
export interface Frames {
  readonly count: number;
  /** Seconds from one frame to the next. */
  readonly hop: number;
  /** Hz, `PEAKS` for every frame, strongest first; 0 where there are fewer. */
  readonly hz: Float32Array;
  /** Loudness of each beside the strongest, 0 to 1: amplitude to the power of `COMPRESSION`. */
  readonly weight: Float32Array;
  /** Amplitude of the strongest, 1 for a sine of full scale. */
  readonly top: Float32Array;
  /** dB by which the strongest stands over the noise around it; noise alone reaches about 12. */
  readonly clear: Float32Array;
  /** Level of the frame's middle, dB below full scale. */
  readonly level: Float32Array;
  /** How much more there is than a moment before, over the whole spectrum: tall where a note begins. */
  readonly rise: Float32Array;
}

/** Seconds. The window holds four periods of the beats between a low double stop's partials; the short one places beginnings. */
const HOP = 0.01;
const WINDOW = 0.09;
const SHORT_WINDOW = 0.023;
/** Hz between which partials are looked for. */
const RANGE = { least: 60, most: 10_000 } as const;
/** dB below the strongest partial at which one counts for nothing. */
const DEPTH = 54;
/** Between amplitude (only the loudest partial counts) and equal shares: a residue 20 dB down counts a sixth of what outweighs it. Assumption. */
export const COMPRESSION = 0.75;
/** A peak is no chance of the noise: so many times the median around it (a Rayleigh amplitude is 1 in 65,000 times). */
const OVER_NOISE = 4;
/** Bins whose median is the noise around them. */
const AROUND = 64;
const SILENT = -120;

/**
 * Frames of a sound as it streams in, by the short-time Fourier transform under a Hann window.
 *
 * @param progress is told after every block how many seconds have been heard; throwing there stops it
 */
export async function framesOf(sound: Sound, progress?: (seconds: number) => void | Promise<void>): Promise<Frames> {
  const taker = new FrameTaker(sound.rate);
  for await (const block of sound.blocks) {
    taker.push(block);
    await progress?.(taker.heard / sound.rate);
  }
  return taker.end();
}

class FrameTaker {
  /** Samples so far. */
  heard = 0;
  private readonly hop: number;
  private readonly long: Transform;
  private readonly short: Transform;
  private readonly buffer: Float32Array;
  /** Place in the buffer of the next frame's first sample, and of the end of what is there. */
  private from = 0;
  private filled: number;
  private before: Float32Array;
  private now: Float32Array;
  private readonly hz = new Growing();
  private readonly weight = new Growing();
  private readonly top = new Growing();
  private readonly clear = new Growing();
  private readonly level = new Growing();
  private readonly rise = new Growing();

  constructor(private readonly rate: number) {
    this.hop = Math.round(HOP * rate);
    this.long = new Transform(powerOfTwo(WINDOW * rate));
    this.short = new Transform(powerOfTwo(SHORT_WINDOW * rate));
    this.buffer = new Float32Array(8 * this.long.size);
    // The first frame's middle is the first sample.
    this.filled = this.long.size / 2;
    this.before = new Float32Array(this.short.size / 2);
    this.now = new Float32Array(this.short.size / 2);
  }

  push(block: Float32Array): void {
    this.heard += block.length;
    this.feed(block);
  }

  end(): Frames {
    const count = Math.ceil(this.heard / this.hop);
    this.feed(new Float32Array(this.long.size));
    return {
      count,
      hop: this.hop / this.rate,
      hz: this.hz.first(count * PEAKS),
      weight: this.weight.first(count * PEAKS),
      top: this.top.first(count),
      clear: this.clear.first(count),
      level: this.level.first(count),
      rise: this.rise.first(count),
    };
  }

  private feed(block: Float32Array): void {
    for (let at = 0; at < block.length; ) {
      const room = this.buffer.length - this.filled;
      const part = block.subarray(at, at + room);
      this.buffer.set(part, this.filled);
      this.filled += part.length;
      at += part.length;
      while (this.from + this.long.size <= this.filled) {
        this.take();
        this.from += this.hop;
      }
      this.buffer.copyWithin(0, this.from, this.filled);
      this.filled -= this.from;
      this.from = 0;
    }
  }

  private take(): void {
    const middle = this.from + this.long.size / 2;
    let power = 0;
    for (let i = middle - this.hop; i < middle + this.hop; i++) power += (this.buffer[i] as number) ** 2;
    this.level.push(power > 0 ? Math.max(SILENT, 10 * Math.log10(power / (2 * this.hop))) : SILENT);
    this.short.magnitudes(this.buffer, middle - this.short.size / 2, this.now);
    let rise = 0;
    for (let bin = 1; bin < this.now.length; bin++) {
      this.now[bin] = Math.log1p(1e3 * (this.now[bin] as number));
      rise += Math.max(0, (this.now[bin] as number) - (this.before[bin] as number));
    }
    this.rise.push(rise / this.now.length);
    [this.before, this.now] = [this.now, this.before];
    this.peaks(this.long.magnitudes(this.buffer, this.from));
  }

  /** The frame's partials. Between two bins a steady sine under a Hann window lies where the ratio of the two tells, exactly. */
  private peaks(magnitudes: Float32Array): void {
    const bin = this.rate / this.long.size;
    const first = Math.max(2, Math.floor(RANGE.least / bin));
    const last = Math.min(magnitudes.length - 2, Math.ceil(Math.min(RANGE.most, 0.45 * this.rate) / bin));
    const found: { hz: number; power: number; clear: number }[] = [];
    for (let from = first; from <= last; from += AROUND) {
      const to = Math.min(last + 1, from + AROUND);
      const noise = medianOf(magnitudes.subarray(Math.max(first, to - AROUND), to));
      const floor = OVER_NOISE * noise;
      for (let i = from; i < to; i++) {
        const [left, here, right] = [magnitudes[i - 1] as number, magnitudes[i] as number, magnitudes[i + 1] as number];
        if (here <= floor || here < left || here <= right || here < 1e-7) continue;
        const up = right > left;
        const ratio = (up ? right : left) / here;
        const off = (2 * ratio - 1) / (ratio + 1);
        found.push({
          hz: (i + (up ? off : -off)) * bin,
          power: 20 * Math.log10(here),
          clear: 20 * Math.log10(here / (noise + 1e-9)),
        });
      }
    }
    found.sort((a, b) => b.power - a.power);
    const [strongest] = found;
    this.top.push(strongest ? 10 ** (strongest.power / 20) : 0);
    this.clear.push(strongest?.clear ?? 0);
    for (let i = 0; i < PEAKS; i++) {
      const peak = found[i];
      const below = peak && strongest ? strongest.power - peak.power : DEPTH;
      this.hz.push(peak && below < DEPTH ? peak.hz : 0);
      this.weight.push(below < DEPTH ? 10 ** ((-below / 20) * COMPRESSION) : 0);
    }
  }
}

/** Magnitudes under a Hann window, 1 for a sine of amplitude 1. */
class Transform {
  private readonly fft: FFT;
  private readonly window: Float32Array;
  private readonly input: number[];
  private readonly output: number[];
  private readonly own: Float32Array;

  constructor(readonly size: number) {
    this.fft = new FFT(size);
    this.window = Float32Array.from({ length: size }, (_, i) => (1 - Math.cos((2 * Math.PI * i) / size)) / 2);
    this.input = new Array<number>(size).fill(0);
    this.output = this.fft.createComplexArray();
    this.own = new Float32Array(size / 2);
  }

  magnitudes(samples: Float32Array, from: number, out: Float32Array = this.own): Float32Array {
    for (let i = 0; i < this.size; i++) this.input[i] = (samples[from + i] as number) * (this.window[i] as number);
    this.fft.realTransform(this.output, this.input);
    const scale = 4 / this.size;
    for (let i = 0; i < out.length; i++) {
      const re = this.output[2 * i] as number;
      const im = this.output[2 * i + 1] as number;
      out[i] = Math.sqrt(re * re + im * im) * scale;
    }
    return out;
  }
}

/** A list of numbers that grows without a copy for each. */
class Growing {
  private values = new Float32Array(1 << 14);
  private length = 0;

  push(value: number): void {
    if (this.length === this.values.length) {
      const larger = new Float32Array(2 * this.length);
      larger.set(this.values);
      this.values = larger;
    }
    this.values[this.length++] = value;
  }

  first(count: number): Float32Array {
    return this.values.subarray(0, count);
  }
}

function powerOfTwo(samples: number): number {
  return 2 ** Math.round(Math.log2(samples));
}

function medianOf(values: Float32Array): number {
  return values.slice().sort()[values.length >> 1] ?? 0;
}
