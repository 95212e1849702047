import Fraction from 'fraction.js';
import type { SceneEvent, ScenePassage } from '../../protocol/scene';
import { tupletOf } from './rhythm';

/** A stretch of a bar: an event (or a part of one that runs on over the bar line), or silence. */
export interface Stretch {
  readonly event: number;
  readonly silent: boolean;
  readonly length: Fraction;
  /** Goes on into the next stretch of the same event. */
  readonly runsOn: boolean;
}

export interface StaffBar {
  readonly number: number;
  readonly stretches: readonly Stretch[];
  readonly close: string;
  /** Set where it is new. */
  readonly meter?: string;
  readonly instructions: readonly string[];
  /** Goes on with a bar that was too long for one line. */
  readonly continued?: true;
}

/**
 * The bars of a passage with their silences filled in: a rest belongs to the note before it, and note and
 * rest may run past the end of the bar where they began.
 */
export function staffBars(passage: ScenePassage): readonly StaffBar[] {
  const queue: Stretch[] = [];
  let meter: string | undefined;
  return passage.bars.map((bar) => {
    for (const event of passage.events.slice(bar.firstEvent, bar.endEvent)) queue.push(...stretchesOf(event));
    const stretches = takeBar(queue, new Fraction(bar.length), bar === passage.bars.at(-1));
    const fresh = bar.meter !== undefined && bar.meter !== meter;
    meter = bar.meter ?? meter;
    return {
      number: bar.number,
      stretches,
      close: bar.close,
      ...(fresh && bar.meter !== undefined && { meter: bar.meter }),
      instructions: passage.instructions.filter((each) => each.bar === bar.number).map(({ text }) => text),
    };
  });
}

function stretchesOf(event: SceneEvent): Stretch[] {
  const at = { event: event.index, runsOn: false };
  const silence = new Fraction(event.rest);
  return [
    { ...at, silent: event.asked.length === 0, length: new Fraction(event.duration) },
    ...(silence.compare(0) > 0 ? [{ ...at, silent: true, length: silence }] : []),
  ];
}

/** Takes a bar's worth from the front of the queue, splitting what runs past its end; the last bar takes all that is left. */
function takeBar(queue: Stretch[], length: Fraction, last: boolean): readonly Stretch[] {
  const taken: Stretch[] = [];
  let room = length;
  while (queue.length > 0 && (last || room.compare(0) > 0)) {
    const next = queue.shift() as Stretch;
    if (last || next.length.compare(room) <= 0) {
      taken.push(next);
      room = room.sub(next.length);
      continue;
    }
    taken.push({ ...next, length: room, runsOn: !next.silent });
    queue.unshift({ ...next, length: next.length.sub(room) });
    room = new Fraction(0);
  }
  return taken;
}

/**
 * A bar in pieces of at most `most` stretches, for a passage without bar lines or a narrow sheet: a line may end between
 * two pieces. Tuplets stay whole where they can.
 */
export function inPieces(bar: StaffBar, most: number): readonly StaffBar[] {
  const pieces: Stretch[][] = [[]];
  let tuplet = new Fraction(0);
  for (const stretch of bar.stretches) {
    const piece = pieces.at(-1) as Stretch[];
    const inTuplet = tupletOf(tuplet) !== undefined;
    if (piece.length >= (inTuplet ? 2 * most : most)) pieces.push([stretch]);
    else piece.push(stretch);
    tuplet = tupletOf(stretch.length) ? tuplet.add(stretch.length) : new Fraction(0);
  }
  const [first = [], ...others] = pieces;
  if (others.length === 0) return [bar];
  const last = others.length - 1;
  return [
    { ...bar, stretches: first, close: '' },
    ...others.map(
      (stretches, index): StaffBar => ({
        number: bar.number,
        stretches,
        close: index === last ? bar.close : '',
        instructions: [],
        continued: true,
      }),
    ),
  ];
}
