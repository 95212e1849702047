import { keptEnds } from '../passage/kept-ends';
import type { PassageEvent } from '../passage/passage';
import type { Solution } from '../solver/solution';

/** Which events of a solution look as those of an earlier one did, wherever they stand. */
export interface KeptEvents {
  /** So many from the front and from the back are kept, those in the middle are not. */
  readonly head: number;
  readonly tail: number;
  /** The earlier index of an event that is kept. */
  twin(index: number): number | undefined;
}

/** Fingered events on either side of one that say how a cellist's position is named (see position-words.ts). */
const AROUND = 24;

export function keptEvents(before: Solution, after: Solution): KeptEvents | undefined {
  if (before.passage.setup !== after.passage.setup) return undefined;
  const [old, now] = [before.passage.events, after.passage.events];
  const shift = now.length - old.length;
  const unplayable = (solution: Solution) =>
    new Map(solution.unplayables.map(({ event, ...why }) => [event, JSON.stringify(why)] as const));
  const [oldUnplayable, nowUnplayable] = [unplayable(before), unplayable(after)];
  const same = (is: number, was: number) =>
    before.events[was] === after.events[is] && looksSame(old[was]!, now[is]!) && oldUnplayable.get(was) === nowUnplayable.get(is);
  let { head, tail } = keptEnds(now.length, old.length, same);
  if (after.passage.setup.instrument.thumb && head < now.length) {
    head = past(after, head, -1);
    tail = now.length - past(after, now.length - tail, 1);
  }
  return {
    head,
    tail,
    twin: (index) => (index < head ? index : index >= now.length - tail ? index - shift : undefined),
  };
}

/** The same but for line, bar and beat. */
function looksSame(old: PassageEvent, now: PassageEvent): boolean {
  return (
    old === now ||
    (old.spec === now.spec &&
      old.source.span === now.source.span &&
      old.duration.n === now.duration.n &&
      old.duration.d === now.duration.d &&
      old.tempo === now.tempo &&
      old.bow === now.bow &&
      old.marks === now.marks &&
      old.directions === now.directions &&
      old.says === now.says &&
      old.grace === now.grace)
  );
}

/** From an edge of what changed so far outwards that no name of a position can have changed beyond. */
function past({ events }: Solution, edge: number, step: 1 | -1): number {
  let fingered = 0;
  let at = edge;
  while (at > 0 && at < events.length && fingered < AROUND) {
    at += step;
    if (events[at]?.fingering.ways.some(({ kind }) => kind !== 'open')) fingered++;
  }
  return at;
}
