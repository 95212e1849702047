import type { SceneBar, SceneEvent, ScenePassage } from '../../protocol/scene';
import { barOrder } from './bar-order';
import { barStarts, clockPoints, secondsAt } from './clock';

/** A passage as it is heard, with every repeat written out. */
export interface AsPlayed {
  readonly passage: ScenePassage;
  /** For each of its events the one of the written passage. */
  readonly written: readonly number[];
}

/** Every note once, whatever its bars ask for. */
export function asWritten(passage: ScenePassage): AsPlayed {
  return { passage, written: passage.events.map(({ index }) => index) };
}

/** What stands between repeat signs, or before the first `:|`, comes twice, with its endings; jumps are followed once. */
export function asPlayed(passage: ScenePassage): AsPlayed {
  const order = barOrder(passage.bars);
  if (order.every(({ bar }, index) => bar === index) && order.length === passage.bars.length) return asWritten(passage);
  const begins = barStarts(passage.bars).map(secondsAt(clockPoints(passage)));
  const events: SceneEvent[] = [];
  const bars: SceneBar[] = [];
  const written: number[] = [];
  let now = 0;
  for (const [place, { bar: at, back }] of order.entries()) {
    const bar = passage.bars[at] as SceneBar;
    const [from, to] = [begins[at] as number, begins[at + 1] as number];
    const shift = events.length - bar.firstEvent;
    // Come to from elsewhere, a note that was tied into is struck anew; in a later ending it is held where the bar before it ends on it too.
    const elsewhere = place > 0 && order[place - 1]!.bar !== at - 1;
    const before = back ? [] : (events.at(-1)?.notes.map(({ sounding }) => sounding) ?? []);
    for (const event of passage.events.slice(bar.firstEvent, bar.endEvent)) {
      const notes =
        (back || elsewhere) && event.index === bar.firstEvent
          ? event.notes.map((note) => ({ ...note, held: note.held && before.includes(note.sounding) }))
          : event.notes;
      written.push(event.index);
      events.push({ ...event, notes, index: event.index + shift, onset: now + event.onset - from });
    }
    bars.push({
      ...bar,
      firstEvent: bar.firstEvent + shift,
      endEvent: bar.endEvent + shift,
      pieces: bar.pieces.map((piece) => (piece.event === undefined ? piece : { ...piece, event: piece.event + shift })),
    });
    now += to - from;
  }
  const timed = events.map((event, index) => {
    const next = events[index + 1]?.onset ?? now;
    return { ...event, silence: Math.max(0, next - event.onset - event.seconds) };
  });
  return { passage: { ...passage, events: timed, bars }, written };
}
