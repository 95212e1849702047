import Fraction from 'fraction.js';
import type { Bar, Passage, PassageEvent } from '../../passage/passage';

/** A note, double stop or rest at its place in a bar. */
export interface Timed {
  readonly onset: Fraction;
  readonly duration: Fraction;
  /** Index into the passage's events; absent for a rest. */
  readonly event?: number;
}

/**
 * What one bar holds, in whole notes from its start. A passage counts rests in seconds, for the solver;
 * as notation they are what its bars have left between one event and the next.
 */
export function timelineOf(passage: Passage, bar: Bar): readonly Timed[] {
  const unit = bar.meter?.unit ?? 4;
  // An upbeat's beats are counted as in a whole bar: its first is not beat 1.
  const late = bar.number === 0 && bar.meter ? new Fraction(bar.meter.count, bar.meter.unit).sub(bar.length) : new Fraction(0);
  const timed: Timed[] = [];
  let at = new Fraction(0);
  const rest = (until: Fraction) => {
    if (until.compare(at) > 0) timed.push({ onset: at, duration: until.sub(at) });
  };
  for (let i = bar.firstEvent; i < bar.endEvent; i++) {
    const event = passage.events[i] as PassageEvent;
    if (event.spec.notes.length === 0) continue;
    const onset = event.beat.sub(1).div(unit).sub(late);
    rest(onset);
    timed.push({ onset, duration: event.duration, event: i });
    at = onset.add(event.duration);
  }
  rest(bar.length);
  return timed;
}
