import type { SceneBar, SceneEvent, ScenePassage } from '../../protocol/scene';
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

/** What stands between repeat signs, or before the first `:|`, comes twice. */
export function asPlayed(passage: ScenePassage): AsPlayed {
  const order = barOrder(passage.bars);
  if (order.length === passage.bars.length) return asWritten(passage);
  const begins = barStarts(passage.bars).map(secondsAt(clockPoints(passage)));
  const events: SceneEvent[] = [];
  const bars: SceneBar[] = [];
  const written: number[] = [];
  let now = 0;
  for (const { bar: at, back } of order) {
    const bar = passage.bars[at] as SceneBar;
    const [from, to] = [begins[at] as number, begins[at + 1] as number];
    const shift = events.length - bar.firstEvent;
    for (const event of passage.events.slice(bar.firstEvent, bar.endEvent)) {
      // Going back to a note that was tied into: it is struck anew.
      const notes = back && event.index === bar.firstEvent ? event.notes.map((note) => ({ ...note, held: false })) : event.notes;
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

/** The bars in the order they are played; `back` marks the one that a repeat goes back to. */
function barOrder(bars: readonly SceneBar[]): readonly { readonly bar: number; readonly back: boolean }[] {
  const order: { readonly bar: number; readonly back: boolean }[] = [];
  let begin = 0;
  for (const [index, { open, close }] of bars.entries()) {
    if (open) begin = index;
    order.push({ bar: index, back: false });
    if (close !== ':|') continue;
    for (let again = begin; again <= index; again++) order.push({ bar: again, back: again === begin });
    begin = index + 1;
  }
  return order;
}
