import Fraction from 'fraction.js';
import type { SceneBar, SceneEvent, ScenePassage, ScenePiece } from '../../protocol/scene';

/** A place of the music as it is written and as it is heard. */
export interface ClockPoint {
  /** Whole notes from the start of the passage. */
  readonly written: Fraction;
  /** Seconds from there. */
  readonly seconds: number;
}

/**
 * Where every note begins and ends, written and heard, in order; between two points the music goes evenly. The first is the start of the
 * passage, the last the end of what it holds, silence included.
 */
export function clockPoints({ bars, events }: ScenePassage): readonly ClockPoint[] {
  const points: ClockPoint[] = [{ written: new Fraction(0), seconds: 0 }];
  let written = new Fraction(0);
  for (const { pieces } of bars) {
    const lengths = playedLengths(pieces, events);
    for (const [index, { event }] of pieces.entries()) {
      const length = lengths[index] as Fraction;
      const sounding = event === undefined ? undefined : events[event];
      if (sounding) points.push({ written, seconds: sounding.onset });
      written = written.add(length);
      if (sounding) points.push({ written, seconds: sounding.onset + sounding.seconds });
    }
  }
  const last = events.at(-1);
  points.push({ written, seconds: last ? last.onset + last.seconds + last.silence : 0 });
  return points;
}

/** What the pieces of a bar take when they are played, in whole notes: a grace note takes its time from the note after it, or else the one before. */
function playedLengths(pieces: readonly ScenePiece[], events: readonly SceneEvent[]): readonly Fraction[] {
  const lengths = pieces.map(({ length }) => new Fraction(length));
  for (const [index, { event }] of pieces.entries()) {
    const grace = event === undefined ? undefined : events[event];
    if (!grace?.grace) continue;
    const timed = (at: number) => pieces[at]?.event !== undefined && !events[pieces[at]?.event as number]?.grace;
    let giver = index + 1;
    while (pieces[giver]?.event !== undefined && !timed(giver)) giver++;
    if (!timed(giver)) for (giver = index - 1; giver >= 0 && !timed(giver); ) giver--;
    if (giver < 0) continue;
    const takes = new Fraction(
      Math.round(((grace.seconds * grace.tempo.bpm) / 60) * new Fraction(grace.tempo.beat).valueOf() * GRID),
      GRID,
    );
    lengths[index] = takes;
    lengths[giver] = (lengths[giver] as Fraction).sub(takes);
  }
  return lengths;
}
/** Grace notes take powers of a half of a whole note, none finer than this. */
const GRID = 2 ** 20;

/** Where every bar begins, in whole notes from the start of the passage, and where the last ends. */
export function barStarts(bars: readonly SceneBar[]): readonly Fraction[] {
  const starts = [new Fraction(0)];
  for (const [index, { length }] of bars.entries()) starts.push((starts[index] as Fraction).add(length));
  return starts;
}

/** The second at which a written place falls; one past the end is as late as the end. */
export function secondsAt(points: readonly ClockPoint[]): (written: Fraction) => number {
  const places = points.map((point) => point.written.valueOf());
  return (written) => {
    const place = written.valueOf();
    let low = 0;
    let high = points.length - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((places[middle] as number) < place) low = middle + 1;
      else high = middle;
    }
    const [before, after] = [points[low - 1] ?? points[0], points[low]];
    if (!before || !after) return 0;
    const [from, to] = [before.written.valueOf(), after.written.valueOf()];
    return to > from ? before.seconds + ((after.seconds - before.seconds) * (place - from)) / (to - from) : after.seconds;
  };
}
