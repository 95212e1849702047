import type {
  BarChange,
  EventsChange,
  PassageChange,
  Scene,
  SceneBar,
  SceneChange,
  SceneEvent,
  ScenePassage,
  ScenePiece,
  Splice,
} from '../protocol/scene';
import { accountOf } from './account';

/**
 * What makes `before` into `after`; undefined where the passages are not as many. What is the same is known by being the same
 * object, as `buildScene` leaves it, so this costs a look at every event and no more.
 */
export function sceneChange(before: Scene, after: Scene): SceneChange | undefined {
  if (before.uri !== after.uri || before.passages.length !== after.passages.length) return undefined;
  const passages = after.passages.map((passage, index) => passageChange(before.passages[index]!, passage));
  return { from: before.version, version: after.version, passages };
}

/** The scene that a change makes of another; undefined where it was not made for that one. */
export function withChange(scene: Scene, { from, version, passages }: SceneChange): Scene | undefined {
  if (scene.version !== from || scene.passages.length !== passages.length) return undefined;
  return { uri: scene.uri, version, passages: passages.map((change, index) => changed(scene.passages[index]!, change)) };
}

function passageChange(before: ScenePassage, after: ScenePassage): PassageChange {
  const { board, instructions, events, bars, ...facts } = after;
  return {
    facts,
    ...(board !== before.board && { board }),
    ...(!sameData(instructions, before.instructions) && { instructions }),
    events: eventsChange(before.events, events),
    bars: barsChange(before, after),
  };
}

function eventsChange(before: readonly SceneEvent[], after: readonly SceneEvent[]): EventsChange {
  const last = after.at(-1);
  const lines = last ? last.range.start.line - (before.at(-1)?.range.start.line ?? 0) : 0;
  const bars = last ? last.bar - (before.at(-1)?.bar ?? 0) : 0;
  const moved = (old: SceneEvent, now: SceneEvent) =>
    old.notes === now.notes &&
    old.asked === now.asked &&
    old.terms === now.terms &&
    now.bar - old.bar === bars &&
    now.range.start.line - old.range.start.line === lines &&
    now.range.start.character === old.range.start.character;
  const splice = spliceOf(before, after, (old, now) => (old === now && lines === 0 && bars === 0) || moved(old, now), Object.is);
  const [was, is] = [before.slice(splice.at + splice.gone), after.slice(splice.at + splice.put.length)];
  const same = was.findLastIndex((event, index) => event.beat !== is[index]!.beat) + 1;
  return { ...splice, lines, bars, beats: is.slice(0, same).map(({ beat }) => beat) };
}

function barsChange(before: ScenePassage, after: ScenePassage): Splice<BarChange> {
  const shift = after.events.length - before.events.length;
  const number = after.bars.length - before.bars.length;
  const splice = spliceOf(before.bars, after.bars, (old, now) => sameData(barMoved(old, shift, number), now), sameData);
  return {
    ...splice,
    put: splice.put.map((bar, index) => {
      const old = index < splice.gone ? before.bars[splice.at + index]!.pieces : [];
      return { ...bar, pieces: spliceOf(old, bar.pieces, (a, b) => sameData(pieceMoved(a, shift), b), sameData) };
    }),
  };
}

/** The least of the middle that must be exchanged: what is before it is as it was, what is after it as it was but moved along. */
function spliceOf<T>(
  before: readonly T[],
  after: readonly T[],
  moved: (old: T, now: T) => boolean,
  stayed: (old: T, now: T) => boolean,
): Splice<T> {
  const most = Math.min(before.length, after.length);
  let at = 0;
  while (at < most && stayed(before[at]!, after[at]!)) at++;
  let tail = 0;
  while (tail < most - at && moved(before[before.length - 1 - tail]!, after[after.length - 1 - tail]!)) tail++;
  return { at, gone: before.length - at - tail, put: after.slice(at, after.length - tail) };
}

function changed(passage: ScenePassage, { facts, board, instructions, events, bars }: PassageChange): ScenePassage {
  const shift = events.put.length - events.gone;
  const number = bars.put.length - bars.gone;
  return {
    ...facts,
    board: board ?? passage.board,
    instructions: instructions ?? passage.instructions,
    events: changedEvents(passage.events, events),
    bars: [
      ...passage.bars.slice(0, bars.at),
      ...bars.put.map(({ pieces, ...bar }, index) => {
        const old = index < bars.gone ? passage.bars[bars.at + index]!.pieces : [];
        return { ...bar, pieces: spliced(old, pieces, (piece) => pieceMoved(piece, shift)) };
      }),
      ...passage.bars.slice(bars.at + bars.gone).map((bar) => barMoved(bar, shift, number)),
    ],
  };
}

function spliced<T>(items: readonly T[], { at, gone, put }: Splice<T>, moved: (item: T) => T): readonly T[] {
  return [...items.slice(0, at), ...put, ...items.slice(at + gone).map(moved)];
}

function changedEvents(before: readonly SceneEvent[], change: EventsChange): readonly SceneEvent[] {
  const { at, gone, put, lines, bars, beats } = change;
  const events = [...before.slice(0, at), ...put];
  const last = events.at(-1);
  let onset = last ? last.onset + (last.seconds + last.silence) : 0;
  for (let index = at + gone; index < before.length; index++) {
    const old = before[index]!;
    const beat = beats[index - at - gone] ?? old.beat;
    events.push(eventMoved(old, { index: events.length, line: old.range.start.line + lines, bar: old.bar + bars, beat, onset }));
    onset += old.seconds + old.silence;
  }
  return events;
}

/** Where an event stands. */
export type EventPlace = Pick<SceneEvent, 'index' | 'bar' | 'beat' | 'onset'> & { readonly line: number };

/** The same event at another place; the very same where it is the same place. */
export function eventMoved(event: SceneEvent, { line, ...place }: EventPlace): SceneEvent {
  const { start, end } = event.range;
  const here = start.line === line;
  const told = event.bar === place.bar && event.beat === place.beat;
  if (here && told && event.index === place.index && event.onset === place.onset) return event;
  const by = line - start.line;
  const range = here ? event.range : { start: { ...start, line }, end: { ...end, line: end.line + by } };
  const moved = { ...event, ...place, range };
  return told ? moved : { ...moved, account: accountOf(moved) };
}

/** A bar after so many more events and bars; the very same where there are none. */
export function barMoved(bar: SceneBar, events: number, bars: number): SceneBar {
  if (events === 0 && bars === 0) return bar;
  return {
    ...bar,
    number: bar.number + bars,
    firstEvent: bar.firstEvent + events,
    endEvent: bar.endEvent + events,
    pieces: events === 0 ? bar.pieces : bar.pieces.map((piece) => pieceMoved(piece, events)),
  };
}

export function pieceMoved(piece: ScenePiece, events: number): ScenePiece {
  return piece.event === undefined || events === 0 ? piece : { ...piece, event: piece.event + events };
}

/** Plain data that is written alike. */
function sameData(a: unknown, b: unknown): boolean {
  return a === b || JSON.stringify(a) === JSON.stringify(b);
}
