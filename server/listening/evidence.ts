import type { ExpectedEvent } from './expected';
import type { Frames } from './frames';
import { centsAbove, matchOff } from './match';

/** What every frame says for every event, summed from the start, so that any stretch of frames is one subtraction. */
export interface Evidence {
  /** Stretches of `step` frames; alignment looks no closer. */
  readonly count: number;
  readonly step: number;
  /** For every event, `count + 1` sums, as it is written and as it may have gone wrong; equal events share them. */
  readonly sums: readonly EventSums[];
  /** The same for nothing of the passage being played. */
  readonly nothing: Float32Array;
  /** 0 to 1: how much a note seems to begin at a stretch. */
  readonly begins: Float32Array;
}

export interface EventSums {
  readonly written: Float32Array;
  /** As written or by any candidate, frame by frame; the same array where nothing can go wrong. */
  readonly wrong: Float32Array;
}

/** What a frame is worth to what it fits perfectly, nats: frames overlap, so each says little that is new. Assumption. */
const WORTH = 1.2;
/** Fits that leave nothing gained or lost. */
const NEUTRAL = 0.38;
/** What a frame is worth at least to an event: any note may have gone wrong in ways that nobody thought of. */
const WRONG = 0.15;
/** A silent frame inside a note, in a written silence, and between takes. */
const SILENT = { note: 0.35, silence: 0.75, nothing: 0.45 } as const;
/** A sounding frame in a written silence: the room, the string ringing on. */
const RINGING = 0.3;
/** What it costs a frame to fit only by a note gone wrong, or by one of two notes: little, since a note that goes wrong does so once. */
const GONE_WRONG = 0.04;
const ONE_OF_TWO = 0.04;
/** What it costs to be as far off as a note may be. */
const OFF = 0.25;

/** @param tuning cents by which the recording lies above the file's A4 */
export function evidenceFor(
  frames: Frames,
  silent: Uint8Array,
  begins: Float32Array,
  expected: readonly ExpectedEvent[],
  tuning: number,
  step: number,
): Evidence {
  const count = Math.ceil(frames.count / step);
  const fits = new Fits(frames, silent, 2 ** (tuning / 1200));
  const known = new Map<string, EventSums>();
  const sums = expected.map((event) => {
    const key = event.notes.map(({ scene }) => `${scene.hz} ${scene.touch?.fraction} ${scene.string}`).join() + event.silence;
    const own = known.get(key) ?? fits.event(event, count, step);
    known.set(key, own);
    return own;
  });
  const none = Float32Array.from(silent, (quiet) => (quiet ? SILENT.nothing : NEUTRAL));
  return { count, step, sums, nothing: summed(none, count, step), begins: tallest(begins, count, step) };
}

class Fits {
  /** Every set of pitches once; a byte for each frame. */
  private readonly known = new Map<string, Uint8Array>();

  constructor(
    private readonly frames: Frames,
    private readonly silent: Uint8Array,
    private readonly tuned: number,
  ) {}

  event({ notes, silence }: ExpectedEvent, count: number, step: number): EventSums {
    if (notes.length === 0) {
      const rest = Float32Array.from(this.silent, (quiet) => (silence ? (quiet ? SILENT.silence : RINGING) : NEUTRAL));
      const sums = summed(rest, count, step);
      return { written: sums, wrong: sums };
    }
    const best = Float32Array.from(this.silent, (quiet) => (quiet ? SILENT.note : WRONG));
    const written = notes.map(({ scene }) => scene.hz);
    this.raise(best, written, 0);
    const sums = summed(best, count, step);
    // A note that was left out cost what it costs to go wrong; silence is then worth no less than where nobody plays.
    for (let frame = 0; frame < best.length; frame++) if (this.silent[frame]) best[frame] = SILENT.nothing;
    for (const { candidates, scene } of notes) {
      if (notes.length > 1) this.raise(best, [scene.hz], ONE_OF_TWO);
      for (const { hz } of candidates.slice(1)) {
        this.raise(best, [hz], GONE_WRONG + (notes.length > 1 ? ONE_OF_TWO : 0));
        if (notes.length === 2) this.raise(best, [hz, ...written.filter((each) => each !== scene.hz)], GONE_WRONG);
      }
    }
    return { written: sums, wrong: summed(best, count, step) };
  }

  private raise(best: Float32Array, hz: readonly number[], cost: number): void {
    const fit = this.of(hz);
    for (let frame = 0; frame < best.length; frame++) {
      const value = (fit[frame] as number) / 255 - cost;
      if (value > (best[frame] as number)) best[frame] = value;
    }
  }

  private of(hz: readonly number[]): Uint8Array {
    const key = hz.map((each) => each.toFixed(1)).join(' ');
    let fit = this.known.get(key);
    if (fit) return fit;
    fit = new Uint8Array(this.frames.count);
    const tuned = hz.map((each) => each * this.tuned);
    for (let frame = 0; frame < fit.length; frame++) {
      if (this.silent[frame]) continue;
      const cents = tuned.map((each) => centsAbove(this.frames, frame, each));
      if (cents.some((each) => each === undefined)) continue;
      fit[frame] = 255 * Math.max(0, matchOff(this.frames, frame, tuned, cents as number[], OFF));
    }
    this.known.set(key, fit);
    return fit;
  }
}

function summed(values: Float32Array, count: number, step: number): Float32Array {
  const sums = new Float32Array(count + 1);
  let sum = 0;
  for (let stretch = 0; stretch < count; stretch++) {
    for (let frame = stretch * step; frame < Math.min(values.length, (stretch + 1) * step); frame++)
      sum += ((values[frame] as number) - NEUTRAL) * WORTH;
    sums[stretch + 1] = sum;
  }
  return sums;
}

function tallest(values: Float32Array, count: number, step: number): Float32Array {
  const most = new Float32Array(count + 1);
  for (const [i, value] of values.entries()) {
    const at = Math.floor(i / step);
    most[at] = Math.max(most[at] as number, value);
  }
  return most;
}
