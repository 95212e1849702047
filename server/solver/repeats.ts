import { keptEnds } from '../passage/kept-ends';
import type { Fingering, Solution } from './solution';

/** Events that must come again in the same way before it is told as a figure. */
const FIGURE = 3;

/** Events read between two yields. */
const STRIDE = 500;

/** What of a solution comes again: a number for every figure, the same for those whose notes are played in the same way for as long. */
interface Repeats {
  /** Number of the figure that begins at an event, -1 where one of its events isn't played. */
  readonly figures: Int32Array;
  /** Numbers given so far, to events and to figures; handed on from one version of a text to the next. */
  readonly numbers: Map<string, number>;
  /** The first event that each figure begins at, by its number; made when asked for. */
  firsts?: Int32Array;
}

const repeatsOf = new WeakMap<Solution, Repeats>();

/** Where the figures that an event is in are heard first, by the event's place in the figure; undefined where that is here. */
export function firstHeard(solution: Solution, event: number): readonly (number | undefined)[] {
  for (const _ of findRepeats(solution));
  const repeats = repeatsOf.get(solution)!;
  const { figures } = repeats;
  repeats.firsts ??= firstsOf(repeats);
  return Array.from({ length: FIGURE }, (_, place) => {
    const figure = figures[event - place] ?? -1;
    const first = figure < 0 ? -1 : repeats.firsts![figure]!;
    return first < 0 || first === event - place ? undefined : first;
  });
}

function firstsOf({ figures, numbers }: Repeats): Int32Array {
  const firsts = new Int32Array(numbers.size).fill(-1);
  for (let at = figures.length - 1; at >= 0; at--) if (figures[at]! >= 0) firsts[figures[at]!] = at;
  return firsts;
}

/** Looks for them before anybody asks, in short steps. */
export function findRepeats(solution: Solution): Generator<void, void> {
  return numbered(solution);
}

/** A solution that grew out of one whose figures are known is looked through only where they differ. */
export function keepRepeats(solution: Solution, earlier: Solution): void {
  if (repeatsOf.has(earlier)) for (const _ of numbered(solution, earlier));
}

function* numbered(solution: Solution, earlier?: Solution): Generator<void, void> {
  if (repeatsOf.has(solution)) return;
  const { length } = solution.events;
  const known = earlier && repeatsOf.get(earlier);
  // What has been numbered in a day of edits is not kept for ever.
  const before = known && known.numbers.size <= 8 * (length + 1000) ? known : undefined;
  const numbers = before?.numbers ?? new Map<string, number>();
  const number = (name: string) => {
    const found = numbers.get(name) ?? numbers.size;
    if (found === numbers.size) numbers.set(name, found);
    return found;
  };
  const figures = new Int32Array(length).fill(-1);
  const { head, tail } = before && earlier ? kept(solution, earlier) : { head: 0, tail: 0 };
  // A figure reaches over the events after the one that it begins at.
  const from = Math.max(0, head - FIGURE + 1);
  const until = length - tail;
  if (before) {
    figures.set(before.figures.subarray(0, from));
    figures.set(before.figures.subarray(before.figures.length - tail), until);
  }
  const played: number[] = [];
  for (let at = from; at < Math.min(length, until + FIGURE - 1); at++) {
    played.push(playedAs(solution, at, number));
    const start = at - FIGURE + 1;
    if (start < from) continue;
    const figure = played.slice(-FIGURE);
    figures[start] = figure.includes(-1) ? -1 : number(figure.join(' '));
    if (at % STRIDE === 0) yield;
  }
  repeatsOf.set(solution, { figures, numbers });
}

function kept({ passage, events }: Solution, earlier: Solution): { readonly head: number; readonly tail: number } {
  const [old, oldPassage] = [earlier.events, earlier.passage];
  return keptEnds(
    events.length,
    old.length,
    (now, was) => events[now] === old[was] && passage.events[now]!.duration === oldPassage.events[was]!.duration,
  );
}

/** A number for the strings, fingers and places of an event, and how long it lasts; -1 where nothing is played. */
function playedAs({ passage, events }: Solution, event: number, number: (name: string) => number): number {
  const fingering = events[event]?.fingering;
  if (!fingering || fingering.ways.length === 0) return -1;
  return number(`${fingeredAs(fingering)} ${passage.events[event]!.duration.toFraction()}`);
}

/** Strings, fingers and places: equal for fingerings that are one to the hand. */
export function fingeredAs({ ways }: Fingering): string {
  return ways.map(({ string, stop, touch }) => [string, stop?.finger, stop?.mm, touch?.finger, touch?.mm].join(' ')).join('+');
}
