import { CONSTANTS } from './constants';

export interface ToleranceOptions {
  /** Width of the touching finger along the string, mm. */
  readonly width?: number;
  /** The wanted partial must be damped less than this share of its least damped rival. */
  readonly share?: number;
}

/** sin(pi u) / (pi u), 1 at 0. */
function sinc(u: number): number {
  return u === 0 ? 1 : Math.sin(Math.PI * u) / (Math.PI * u);
}

/**
 * Share of mode `m` that a finger `width` mm wide takes away when it touches a string of `length` mm centred
 * `mm` from its nut end: the mean of sin^2 over the finger, 0 (untouched) to 1.
 */
export function damping(m: number, mm: number, length: number, width: number): number {
  return dampedBy(m, mm, length, spread(m, length, width));
}

/** How much a finger's width evens out what a mode does along the string, 1 (not at all) to 0. */
function spread(m: number, length: number, width: number): number {
  return sinc((m * width) / length);
}

function dampedBy(m: number, mm: number, length: number, spread: number): number {
  return (1 - Math.cos((2 * Math.PI * m * mm) / length) * spread) / 2;
}

/** Rivals are looked for up to this many times the wanted partial. */
const RIVAL_SPAN = 3;
/** Each side of a node is scanned in this many steps before a crossing is narrowed down. */
const STEPS = 24;
/** mm, to which the answer is exact. */
const PRECISION = 0.01;

/**
 * Placement tolerance of the harmonic touched at `k/n` of a string sounding over `length` mm: how far, in mm, the
 * finger may miss the node to either side (the worse side counts) and partial `n` is still damped less than `share`
 * of its least damped rival. 0 where nothing is left and the harmonic can't be played.
 *
 * Rivals are all modes below 3n that are not multiples of n, lower ones included: a mode left ringing below n makes the
 * string speak at the wrong pitch, one above makes it whistle. The multiples 2n, 3n... have a node under the finger
 * wherever n has one and ring with it as its overtones, so they don't count. From 3n up a rival holds less of the
 * string's motion than a third of the wanted partial does (a bowed string's modes fall as 1/m) and isn't heard as one.
 */
export function tolerance(length: number, k: number, n: number, options: ToleranceOptions = {}): number {
  const width = options.width ?? CONSTANTS.fingerWidth.value;
  const share = options.share ?? CONSTANTS.dampingShare.value;
  // Only width/length matters, so the answer scales with the string; lengths repeat all through a passage.
  const table = remembered(`${k}/${n} ${width} ${share}`);
  let answer = table.get(length);
  if (answer === undefined) {
    answer = Math.min(miss(length, k, n, width, share, -1), miss(length, k, n, width, share, 1));
    if (table.size >= MEMORY) table.clear();
    table.set(length, answer);
  }
  return answer;
}

const MEMORY = 4096;
const memory = new Map<string, Map<number, number>>();

function remembered(key: string): Map<number, number> {
  let table = memory.get(key);
  if (!table) {
    table = new Map();
    if (memory.size >= MEMORY) memory.clear();
    memory.set(key, table);
  }
  return table;
}

/** The first miss toward the bridge (`side` 1) or the nut (-1) at which the harmonic no longer holds. */
function miss(length: number, k: number, n: number, width: number, share: number, side: 1 | -1): number {
  const node = (k * length) / n;
  const spreads = Array.from({ length: RIVAL_SPAN * n }, (_, m) => spread(m, length, width));
  const holds = (d: number): boolean => {
    const mm = node + side * d;
    const allowed = dampedBy(n, mm, length, spreads[n]!) / share;
    for (let m = 1; m < RIVAL_SPAN * n; m++) if (m % n !== 0 && dampedBy(m, mm, length, spreads[m]!) <= allowed) return false;
    return true;
  };
  if (!holds(0)) return 0;
  // Halfway to the next node of the partial it is damped most, and past it the finger is at another node's place.
  const step = length / (2 * n) / STEPS;
  let good = 0;
  let bad = step;
  while (holds(bad) && bad < STEPS * step) {
    good = bad;
    bad += step;
  }
  while (bad - good > PRECISION) {
    const middle = (good + bad) / 2;
    if (holds(middle)) good = middle;
    else bad = middle;
  }
  return good;
}
