import Fraction from 'fraction.js';
import type { Bar, BarRest, Passage, PassageEvent } from '../passage/passage';

/** A note, double stop or rest at its place in a bar. */
export interface BarPiece {
  /** In whole notes from the start of the bar. */
  readonly onset: Fraction;
  readonly duration: Fraction;
  /** Index into the passage's events; absent for a rest. */
  readonly event?: number;
  /** As it is written; absent for silence in the place of a note that can't be read. */
  readonly rest?: BarRest;
}

/**
 * What one bar holds, its rests among it. A passage counts rests in seconds, for the solver; as notation they are what its
 * bars have left between one event and the next, whatever the tempo.
 */
export function barPieces(passage: Pick<Passage, 'events'>, bar: Bar): readonly BarPiece[] {
  const late = upbeatGap(bar);
  const pieces: BarPiece[] = [];
  const written = bar.rests ?? [];
  let next = 0;
  let at = new Fraction(0);
  const rest = (until: Fraction) => {
    while (until.compare(at) > 0) {
      while (written[next] && (written[next] as BarRest).onset.compare(at) < 0) next++;
      const here = written[next]?.onset.equals(at) ? written[next++] : undefined;
      const following = written[next]?.onset;
      const end = following && following.compare(until) < 0 ? following : until;
      pieces.push({ onset: at, duration: end.sub(at), ...(here && { rest: here }) });
      at = end;
    }
  };
  for (let event = bar.firstEvent; event < bar.endEvent; event++) {
    const { spec, beat, duration } = passage.events[event] as PassageEvent;
    if (spec.notes.length === 0) continue;
    const onset = beat
      .sub(1)
      .div(bar.meter?.unit ?? 4)
      .sub(late);
    rest(onset);
    pieces.push({ onset, duration, event });
    at = onset.add(duration);
  }
  rest(bar.length);
  return pieces;
}

/** What an upbeat leaves out of its bar, in whole notes: its beats are counted as in a whole bar, so its first is not beat 1. */
export function upbeatGap({ number, meter, length }: Bar): Fraction {
  return number === 0 && meter ? new Fraction(meter.count, meter.unit).sub(length) : new Fraction(0);
}
