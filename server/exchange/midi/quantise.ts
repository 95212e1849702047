import Fraction from 'fraction.js';
import type { PerformedNote } from './performed';

/** Notes that were struck together, in written time: quarters from the start. */
export interface Struck {
  readonly keys: readonly number[];
  readonly from: Fraction;
  readonly to: Fraction;
  readonly plucked: boolean;
}

export interface Quantised {
  readonly struck: readonly Struck[];
  /** Notes whose beginning was moved, and the furthest, in quarters. */
  readonly moved: number;
  readonly furthest: number;
  /** Silences that were closed, as a note that is not held to its end is written to the next one. */
  readonly closed: number;
}

/** Parts of a quarter, and how unlikely each is beside plain quarters (in the units of `misfit`); an assumption, as is all here. */
const GRIDS: readonly (readonly [number, number])[] = [
  [1, 0],
  [2, 1],
  [4, 2],
  [3, 4],
  [8, 6],
  [6, 7],
  [5, 11],
  [7, 13],
  [12, 14],
  [16, 14],
];
/** How far off its place a note is usually played, in quarters. */
const USUAL_MISS = 0.04;
/** Notes struck within this many quarters of one another are one chord. */
const TOGETHER = 0.04;
/** Two notes that would fall together though they were not struck so. */
const COLLISION = 20;
/** A note held for less of the way to the next one than this was meant to be short. */
const HELD = 0.7;
const GRIDS_OF_ENDS = [1, 2, 4, 3, 8, 6];
/** Quarters from which on it is told that a note was moved: less is how programs round. */
const TOLD = 0.01;
/** The longest silence that is closed, in quarters. */
const LONGEST_GAP = 0.5;

/** Notes in the time they are likely to be written in: each quarter is divided as fits what begins in it best. */
export function quantise(notes: readonly PerformedNote[]): Quantised {
  const clusters = clustered(notes);
  const places = placed(clusters.map(({ from }) => from));
  let [moved, furthest, closed] = [0, 0, 0];
  const struck: Struck[] = [];
  for (const [i, cluster] of clusters.entries()) {
    const from = places[i] as Fraction;
    const off = Math.abs(from.valueOf() - cluster.from);
    if (off >= TOLD) moved += cluster.notes.length;
    furthest = Math.max(furthest, off);
    let after = i + 1;
    while (after < places.length && (places[after] as Fraction).compare(from) <= 0) after++;
    const [next, limit] = [clusters[after], places[after]];
    const plucked = cluster.notes.some((note) => note.plucked);
    const ends = new Map<string, { to: Fraction; keys: number[] }>();
    for (const note of cluster.notes) {
      const { to, gap } = endOf(note, from, next?.from, limit);
      if (gap) closed++;
      const same = ends.get(to.toFraction()) ?? { to, keys: [] };
      same.keys.push(note.key);
      ends.set(to.toFraction(), same);
    }
    for (const { to, keys } of ends.values()) struck.push({ keys: [...new Set(keys)], from, to, plucked });
  }
  return { struck, moved, furthest, closed };
}

interface Cluster {
  readonly from: number;
  readonly notes: readonly PerformedNote[];
}

function clustered(notes: readonly PerformedNote[]): readonly Cluster[] {
  const clusters: { from: number; notes: PerformedNote[] }[] = [];
  for (const note of notes) {
    const last = clusters.at(-1);
    const again = last?.notes.some(({ key }) => key === note.key);
    if (last && !again && note.from - last.from < TOGETHER) last.notes.push(note);
    else clusters.push({ from: note.from, notes: [note] });
  }
  return clusters;
}

/** The written place of every beginning, quarter by quarter. */
function placed(onsets: readonly number[]): readonly Fraction[] {
  const places: Fraction[] = [];
  for (let i = 0; i < onsets.length; ) {
    const quarter = Math.floor((onsets[i] as number) + USUAL_MISS);
    let end = i + 1;
    while (end < onsets.length && (onsets[end] as number) + USUAL_MISS < quarter + 1) end++;
    const inside = onsets.slice(i, end).map((onset) => onset - quarter);
    const grid = gridOf(inside);
    for (const at of inside) places.push(new Fraction(quarter * grid + Math.round(at * grid), grid));
    i = end;
  }
  return places;
}

function gridOf(inside: readonly number[]): number {
  let best = 1;
  let least = Number.POSITIVE_INFINITY;
  for (const [grid, unlikely] of GRIDS) {
    const misfit = inside.reduce((sum, at) => sum + ((at - Math.round(at * grid) / grid) / USUAL_MISS) ** 2, 0);
    const fallTogether = inside.filter(
      (at, i) => i > 0 && Math.round(at * grid) === Math.round((inside[i - 1] as number) * grid),
    );
    const cost = misfit + unlikely + COLLISION * fallTogether.length;
    if (cost < least - 1e-9) [best, least] = [grid, cost];
  }
  return best;
}

/** Where a note is written to end: at the next one where it was nearly held that long, else on the likeliest place. */
function endOf(
  { from: struck, to }: PerformedNote,
  from: Fraction,
  next: number | undefined,
  limit: Fraction | undefined,
): { readonly to: Fraction; readonly gap: boolean } {
  if (next !== undefined && limit) {
    const held = (to - struck) / (next - struck);
    const gap = next - to;
    // Fingers overlap in playing; what sounds on past the next note's beginning for longer is meant to.
    if (held >= HELD && gap <= LONGEST_GAP && (gap >= 0 || -gap < Math.max(0.1, 0.2 * (next - struck))))
      return { to: limit, gap: gap > 1e-3 };
  }
  const length = to - struck;
  const exact = GRIDS_OF_ENDS.find((g) => Math.abs(Math.round(length * g) / g - length) < USUAL_MISS / 2);
  // Of a note that is let go early the plainest value that it was held for most of.
  const grid = exact ?? GRIDS_OF_ENDS.find((g) => length / (Math.ceil(length * g) / g) >= HELD) ?? 8;
  const parts = exact ? Math.round(length * grid) : Math.ceil(length * grid);
  const written = from.add(new Fraction(Math.max(1, parts), grid));
  const between = limit && next !== undefined && to <= next && written.compare(limit) > 0;
  return { to: between ? limit : written, gap: !exact && !between };
}
