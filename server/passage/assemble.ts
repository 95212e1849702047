import Fraction from 'fraction.js';
import type { LineMusic } from './line';
import type { Bar, PassageEvent } from './passage';
import { internSpec } from './spec';

/** Where a line of music comes to stand in its passage. */
export interface Standing {
  /** Index of the line in the file. */
  readonly line: number;
  /** Number of the bar that is open at its start. */
  readonly bar: number;
  /** Seconds of rest that the lines after it open with. */
  readonly trailing: Fraction;
  /** Beats that the upbeat leaves out, while its bar is open at the start of the line. */
  readonly late: Fraction;
}

interface Stood extends Standing {
  readonly events: readonly PassageEvent[];
  readonly motifLines: readonly (number | undefined)[];
}

const stood = new WeakMap<LineMusic, Stood>();

/** The events of a line of music as they stand in the passage; the same objects as before while it stands the same. */
export function standing(
  music: LineMusic,
  at: Standing,
  motifLine: (name: string) => number | undefined,
): readonly PassageEvent[] {
  const motifLines = music.definers.map(motifLine);
  const before = stood.get(music);
  if (
    before?.line === at.line &&
    before.bar === at.bar &&
    before.trailing.equals(at.trailing) &&
    before.late.equals(at.late) &&
    before.motifLines.length === motifLines.length &&
    before.motifLines.every((line, index) => line === motifLines[index])
  ) {
    return before.events;
  }
  const events = music.events.map((_, index) => stand(music, index, at, motifLine));
  stood.set(music, { ...at, events, motifLines });
  return events;
}

function stand(
  { events, lastRest }: LineMusic,
  index: number,
  { line, bar, trailing, late }: Standing,
  motifLine: (name: string) => number | undefined,
): PassageEvent {
  const event = events[index] as LineMusic['events'][number];
  const { spec, span, notes, definition, beat, duration, tempo, bow } = event;
  const rests = index === events.length - 1 && trailing.n !== 0n;
  const { key: _, ...demand } = spec;
  const definer = definition && motifLine(definition.motif);
  return {
    spec: rests ? internSpec({ ...demand, rest: lastRest.add(trailing).valueOf() }) : spec,
    source: {
      line,
      span,
      notes,
      ...(definition && definer !== undefined && { definition: { line: definer, span: definition.span } }),
    },
    bar: bar + event.bar,
    beat: event.bar === 0 && late.n !== 0n ? beat.add(late) : beat,
    duration,
    tempo,
    ...(bow && { bow }),
  };
}

/** The bars of a passage from the bar lines of its lines. `firstNumber` is 0 where the first bar is an upbeat, else 1. */
export function barsOf(lines: readonly LineMusic[], firstNumber: number): readonly Bar[] {
  const bars: { -readonly [K in keyof Bar]: Bar[K] }[] = [];
  let first = 0;
  let before = 0;
  let opens = false;
  const add = (endEvent: number, length: Fraction, meter: Bar['meter'], close: Bar['close']) => {
    bars.push({
      number: firstNumber + bars.length,
      firstEvent: first,
      endEvent,
      length,
      ...(meter && { meter }),
      ...(opens && { open: '|:' as const }),
      close,
    });
    first = endEvent;
  };
  for (const { events, bars: marks } of lines) {
    for (const { events: earlier, style, length, meter } of marks) {
      const last = bars.at(-1);
      if (length.n !== 0n) {
        add(before + earlier, length, meter, style);
        opens = style === '|:';
      } else if (style === '|:') opens = true;
      // A bar line right after another says more of the same place.
      else if (last && last.close === '|') last.close = style;
    }
    before += events.length;
  }
  const out = lines.at(-1)?.out;
  if (out && out.filled.n !== 0n) add(before, out.filled, out.meter, '');
  return bars;
}

export const NO_TIME = new Fraction(0);
