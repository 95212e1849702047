import { type Exact, NO_TIME, sum } from '../music/time';
import type { Mutable } from './atom';
import type { LineBar } from './bar-track';
import type { LineMusic } from './line-music';
import type { Bar, EventSpec, PassageEvent } from './passage';
import { internSpec } from './spec';

/** Where a line of music comes to stand in its passage. */
export interface Standing {
  /** Index of the line in the file. */
  readonly line: number;
  /** Number of the bar that is open at its start. */
  readonly bar: number;
  /** Seconds of rest that the lines after it open with. */
  readonly trailing: Exact;
  /** Beats that the upbeat leaves out, while its bar is open at the start of the line. */
  readonly late: Exact;
}

/** The events of a line of music as they came to stand when last looked at. */
export interface Stood extends Standing {
  readonly events: readonly PassageEvent[];
  readonly motifLines: readonly (number | undefined)[];
}

/** The events of a line of music as they stand in the passage; the same objects as in `before` while it stands the same. */
export function standing(
  music: LineMusic,
  at: Standing,
  motifLine: (name: string) => number | undefined,
  before: Stood | undefined,
): Stood {
  const motifLines = music.definers.length === 0 ? NONE : music.definers.map(motifLine);
  if (
    before?.line === at.line &&
    before.bar === at.bar &&
    before.trailing === at.trailing &&
    before.late === at.late &&
    before.motifLines.length === motifLines.length &&
    before.motifLines.every((line, index) => line === motifLines[index])
  ) {
    return before;
  }
  const { line, bar, trailing, late } = at;
  return { line, bar, trailing, late, motifLines, events: music.events.map((_, index) => stand(music, index, at, motifLine)) };
}

const NONE: readonly number[] = [];

function stand(
  { events, lastRest }: LineMusic,
  index: number,
  { line, bar, trailing, late }: Standing,
  motifLine: (name: string) => number | undefined,
): PassageEvent {
  const event = events[index] as LineMusic['events'][number];
  const { spec, span, notes, definition, bow, bowsOn, marks, directions, grace, says } = event;
  const source: Mutable<PassageEvent['source']> = { line, span, notes };
  const definer = definition && motifLine(definition.motif);
  if (definition && definer !== undefined) source.definition = { line: definer, span: definition.span };
  const rests = index === events.length - 1 && trailing !== NO_TIME;
  const stands: Mutable<PassageEvent> = {
    spec: rests ? rested(spec, sum(lastRest, trailing).valueOf()) : spec,
    source,
    bar: bar + event.bar,
    beat: event.bar === 0 && late !== NO_TIME ? sum(event.beat, late) : event.beat,
    duration: event.duration,
    tempo: event.tempo,
  };
  if (bow) stands.bow = bow;
  if (bowsOn) stands.bowsOn = bowsOn;
  if (marks) stands.marks = marks;
  if (directions) stands.directions = directions;
  if (grace) stands.grace = grace;
  if (says) stands.says = says;
  return stands;
}

function rested({ key: _, ...demand }: EventSpec, rest: number): EventSpec {
  return internSpec({ ...demand, rest });
}

/** The bars of a passage from the bar lines of its lines. `firstNumber` is 0 where the first bar is an upbeat, else 1. */
export function passageBars(lines: readonly LineMusic[], firstNumber: number): readonly Bar[] {
  const bars: Mutable<Bar>[] = [];
  let first = 0;
  let before = 0;
  let opens = false;
  let ending: readonly number[] | undefined;
  const add = (
    endEvent: number,
    length: Exact,
    {
      meter,
      key,
      clef,
      rests,
      together,
      endsHairpin,
    }: Pick<LineBar, 'meter' | 'key' | 'clef' | 'rests' | 'together' | 'endsHairpin'>,
    close: Bar['close'],
  ) => {
    const bar: Mutable<Bar> = { number: firstNumber + bars.length, firstEvent: first, endEvent, length, close };
    if (meter) bar.meter = meter;
    if (key) bar.key = key;
    if (clef) bar.clef = clef;
    if (ending) bar.ending = ending;
    if (opens) bar.open = '|:';
    if (rests && rests.length > 0) bar.rests = rests;
    if (together !== undefined) bar.together = together;
    if (endsHairpin) bar.endsHairpin = endsHairpin;
    bars.push(bar);
    first = endEvent;
  };
  for (const { events, bars: marks } of lines) {
    for (const { events: earlier, style, length, jumps, ending: begins, ...mark } of marks) {
      const last = bars.at(-1);
      if (length !== NO_TIME) {
        ending = begins ?? ending;
        add(before + earlier, length, mark, style);
        const added = bars.at(-1);
        if (added && jumps) added.jumps = jumps;
        // An ending lasts to the repeat sign, the next ending or a double bar.
        if (style === ':|' || style === '||') ending = undefined;
        opens = style === '|:';
      } else if (style === '|:') opens = true;
      // A bar line right after another says more of the same place.
      else if (last && last.close === '|') last.close = style;
      if (length === NO_TIME && jumps && last) last.jumps = [...(last.jumps ?? []), ...jumps];
      if (length === NO_TIME && style !== '|' && style !== '|:') ending = undefined;
    }
    before += events.length;
  }
  const out = lines.at(-1)?.out;
  if (out && out.filled !== NO_TIME) {
    ending = out.pending.ending ?? ending;
    add(before, out.filled, { ...out, rests: out.pending.rests }, '');
    const open = bars.at(-1);
    if (open && out.pending.jumps.length > 0) open.jumps = out.pending.jumps;
  }
  return bars;
}

/** For each line the rests that follow it on lines without an event of their own before them. */
export function trailingRests(lines: readonly LineMusic[]): readonly Exact[] {
  const trailing: Exact[] = new Array(lines.length);
  let following = NO_TIME;
  for (let index = lines.length - 1; index >= 0; index--) {
    const music = lines[index];
    trailing[index] = following;
    if (!music) continue;
    following = music.events.length > 0 ? music.leadingRest : sum(following, music.leadingRest);
  }
  return trailing;
}
