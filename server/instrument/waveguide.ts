import { CONSTANTS } from './constants';

/** A bow drawn for the whole length of the sound. */
export interface Bow {
  /** mm from the bridge. */
  readonly distance: number;
  /** m/s. */
  readonly speed: number;
  /** N. */
  readonly force: number;
}

/** A string pulled aside at one point and let go. */
export interface Pluck {
  /** mm from the bridge. */
  readonly distance: number;
}

export interface StringSpec {
  /** Sounding length, nut or stopping finger to bridge, mm. */
  readonly length: number;
  /** Frequency of that length, Hz. */
  readonly hz: number;
  /** Wave impedance, kg/s: see `impedance`. */
  readonly impedance: number;
  /** A finger lying on the string. */
  readonly touch?: {
    /** Its middle, mm from the nut end of the sounding string. */
    readonly mm: number;
    /** mm along the string. */
    readonly width?: number;
    /** Resistance of the whole finger against the string's own wave resistance, 2Z; 0 doesn't touch. */
    readonly weight?: number;
    /** Seconds after which it lifts; never unless set. */
    readonly lifts?: number;
  };
  readonly by: Bow | Pluck;
  /** Seconds. */
  readonly seconds: number;
  /** Samples per second of the result. */
  readonly sampleRate: number;
}

/** The string is cut into cells of about this many mm. */
const CELL = 0.75;
/** Enough cells for a smooth wave on the shortest string. */
const LEAST_CELLS = 128;
/** Share of a wave that comes back from the bridge; the rest is heard and lost. */
const REFLECTION = 0.995;
/** Side taps of the bridge's three-tap low-pass, whose delay is exactly one sample and so leaves the string in tune. */
const SOFTENING = 0.1;
/** Speed difference at which friction has fallen halfway from sticking to sliding, m/s (assumption). */
const FRICTION_KNEE = 0.1;
/** Periods of the whole string in which the bow comes up to speed: slow enough for one slip a period from the start (assumption). */
const BOW_START = 20;
/** How hard a touching finger damps unless set (assumption: half of what the string itself carries away). */
const TOUCH_WEIGHT = 0.5;

/**
 * Sound of one string as a pair of travelling velocity waves, in two segments on either side of a touching finger:
 * the finger is a row of resistances over its width, the bow a friction point, nut and bridge reflect. Ideal
 * (flexible) string; exactly in tune at any sample rate, because the string has a whole number of cells and the result is
 * resampled. Returns what reaches the bridge, scaled to a peak of 1 (silence stays silent).
 */
export function renderString(spec: StringSpec): Float32Array {
  return normalised(resampled(bridgeSignal(spec), internalRate(spec), spec));
}

/** Samples per second at which a string's own waves are worked out: two passages of every cell, and the bridge's sample, in one period. */
export function internalRate(spec: Pick<StringSpec, 'length' | 'hz'>): number {
  return (2 * cellCount(spec.length) + 1) * spec.hz;
}

function cellCount(length: number): number {
  return Math.max(LEAST_CELLS, Math.round(length / CELL));
}

/** Velocity waves arriving at the bridge, m/s, at the internal rate. */
export function bridgeSignal(spec: StringSpec): Float32Array {
  const cells = cellCount(spec.length);
  const rate = internalRate(spec);
  const out = new Float32Array(Math.ceil(spec.seconds * rate));
  // Waves toward the bridge and toward the nut. A wave moves one cell a sample: rather than the waves, their origin moves.
  const down = new Float64Array(cells);
  const up = new Float64Array(cells);
  const finger = fingerLoads(spec, cells);
  const lifts = Math.ceil((spec.touch?.lifts ?? Number.POSITIVE_INFINITY) * rate);
  const at = cellAt(spec.length - spec.by.distance, spec.length, cells);
  const bow = 'force' in spec.by ? spec.by : undefined;
  if (!bow) pull(down, up, at);
  let sticking = false;
  let before = 0;
  let beforeThat = 0;
  let origin = 0;
  for (let sample = 0; sample < out.length; sample++) {
    if (sample < lifts) {
      for (const { cell, keep } of finger) {
        const d = wrap(cell - origin, cells);
        const u = wrap(cell + origin, cells);
        const toBridge = down[d] as number;
        const toNut = up[u] as number;
        const moves = (toBridge + toNut) * keep;
        down[d] = moves - toNut;
        up[u] = moves - toBridge;
      }
    }
    if (bow) {
      const d = wrap(at - origin, cells);
      const u = wrap(at + origin, cells);
      const speed = bow.speed * Math.min(1, (sample * spec.hz) / (BOW_START * rate));
      const gap = speed - (down[d] as number) - (up[u] as number);
      const slip = slipSpeed(Math.abs(gap), bow.force / (2 * spec.impedance), sticking);
      sticking = slip === 0;
      const push = gap - Math.sign(gap) * slip;
      down[d] = (down[d] as number) + push;
      up[u] = (up[u] as number) + push;
    }
    // What leaves `down` at the bridge comes back into `up`, softened; what leaves `up` at the nut returns whole.
    const atBridge = down[wrap(cells - 1 - origin, cells)] as number;
    const atNut = up[origin] as number;
    const back = -REFLECTION * (SOFTENING * (atBridge + beforeThat) + (1 - 2 * SOFTENING) * before);
    beforeThat = before;
    before = atBridge;
    out[sample] = atBridge;
    up[origin] = back;
    origin = origin + 1 === cells ? 0 : origin + 1;
    down[wrap(-origin, cells)] = -atNut;
  }
  return out;
}

function wrap(index: number, cells: number): number {
  const rest = index % cells;
  return rest < 0 ? rest + cells : rest;
}

/** The string's ends lie half a cell before cell 0 and one past the last, where the bridge's filter has its middle. */
function placeInCells(mm: number, length: number, cells: number): number {
  return (mm / length) * (cells + 0.5) - 0.5;
}

function cellAt(mm: number, length: number, cells: number): number {
  return Math.min(cells - 1, Math.max(0, Math.round(placeInCells(mm, length, cells))));
}

/** The finger's resistance shared out over the cells it covers, as the part of a free string's velocity that each lets through. */
function fingerLoads(spec: StringSpec, cells: number): readonly { readonly cell: number; readonly keep: number }[] {
  const { touch, length } = spec;
  if (!touch) return [];
  const width = touch.width ?? CONSTANTS.fingerWidth.value;
  const from = placeInCells(touch.mm - width / 2, length, cells);
  const to = placeInCells(touch.mm + width / 2, length, cells);
  const loads: { cell: number; keep: number }[] = [];
  for (let cell = Math.max(0, Math.floor(from)); cell <= Math.min(cells - 1, Math.ceil(to)); cell++) {
    const covered = Math.min(to, cell + 0.5) - Math.max(from, cell - 0.5);
    if (covered > 0) loads.push({ cell, keep: 1 / (1 + ((touch.weight ?? TOUCH_WEIGHT) * covered) / (to - from)) });
  }
  return loads;
}

/** A string drawn to a peak at one cell: at rest, so its two velocity waves cancel, each half its slope. */
function pull(down: Float64Array, up: Float64Array, peak: number): void {
  const toNut = peak + 0.5;
  const toBridge = down.length - peak;
  for (let cell = 0; cell < down.length; cell++) {
    const slope = cell < peak ? 1 / toNut : cell > peak ? -1 / toBridge : 0;
    down[cell] = -slope;
    up[cell] = slope;
  }
}

/**
 * Speed, m/s, at which the hair slides over a string that would lag behind it by `gap` if it were free; 0 sticks. `pressure`
 * is force over 2Z. Friction falls from static to sliding as a hyperbola in speed; where string and hair could both stick and
 * slide they go on as they were (M. E. McIntyre, R. T. Schumacher and J. Woodhouse, JASA 74, 1983).
 */
function slipSpeed(gap: number, pressure: number, sticking: boolean): number {
  const { staticFriction, slidingFriction } = CONSTANTS;
  if (sticking && gap <= pressure * staticFriction.value) return 0;
  const b = FRICTION_KNEE + pressure * slidingFriction.value - gap;
  const c = FRICTION_KNEE * (pressure * staticFriction.value - gap);
  const square = b * b - 4 * c;
  return square < 0 ? 0 : Math.max(0, (-b + Math.sqrt(square)) / 2);
}

/** To the wanted rate through a triangular low-pass one output sample to either side. */
function resampled(signal: Float32Array, rate: number, spec: StringSpec): Float32Array {
  const ratio = rate / spec.sampleRate;
  const reach = Math.max(1, ratio);
  const out = new Float32Array(Math.floor(spec.seconds * spec.sampleRate));
  for (let sample = 0; sample < out.length; sample++) {
    const middle = sample * ratio;
    let sum = 0;
    let weights = 0;
    for (let i = Math.max(0, Math.ceil(middle - reach)); i <= middle + reach && i < signal.length; i++) {
      const weight = 1 - Math.abs(i - middle) / reach;
      sum += weight * (signal[i] as number);
      weights += weight;
    }
    out[sample] = weights > 0 ? sum / weights : 0;
  }
  return out;
}

/** Around 0, with a peak of 1. */
function normalised(signal: Float32Array): Float32Array {
  const mean = signal.reduce((sum, value) => sum + value, 0) / (signal.length || 1);
  const peak = signal.reduce((most, value) => Math.max(most, Math.abs(value - mean)), 0);
  return peak > 0 ? signal.map((value) => (value - mean) / peak) : signal;
}
