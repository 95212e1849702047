import type { Span } from '../../grammar/tree';
import type { Tempo } from '../music/meter';
import type { Exact } from '../music/time';
import type { LineBar } from './bar-track';
import type { Context } from './context';
import type { EventSpec, PassageEvent } from './passage';
import type { LineProblem, MotifPlace } from './problem';
import type { Tie } from './tie';

/** An event of one line, with what only its line knows: bars counted from the line's first, no line number. */
export interface LineEvent {
  /** Without the rests that the following lines open with. */
  readonly spec: EventSpec;
  readonly span: Span;
  readonly notes: readonly { readonly span: Span; readonly form: Span; readonly hints?: Span }[];
  readonly definition?: MotifPlace;
  /** Bar lines that close a bar before it on this line. */
  readonly bar: number;
  /** Counted from 1, in the meter's beat, or in quarters where there is no meter. */
  readonly beat: Exact;
  readonly duration: Exact;
  readonly tempo: Tempo;
  readonly bow?: 'up' | 'down';
  readonly bowsOn?: true;
  readonly marks?: PassageEvent['marks'];
  readonly directions?: PassageEvent['directions'];
  readonly grace?: Exact;
  readonly says?: PassageEvent['says'];
}

/** What one line of music comes to in its context. */
export interface LineMusic {
  readonly events: readonly LineEvent[];
  readonly bars: readonly LineBar[];
  /** Seconds of rest before the first event; they belong to the event before the line. */
  readonly leadingRest: Exact;
  /** Seconds of rest after the last event, so far. */
  readonly lastRest: Exact;
  /** Ties of the last event. */
  readonly ties: readonly Tie[];
  /** Notes held into this line that it doesn't continue, and why. */
  readonly unmet: readonly { readonly note: number; readonly why: string }[];
  readonly problems: readonly LineProblem[];
  /** Told where the passage ends with this line. */
  readonly overfull: LineProblem | undefined;
  /** Bars that end on it. */
  readonly closes: number;
  /** Motifs named on it. */
  readonly motifs: ReadonlySet<string>;
  /** Motifs that the events point at as the place they are written. */
  readonly definers: readonly string[];
  /** How many notes came out of motifs. */
  readonly expanded: number;
  readonly out: Context;
}
