import Fraction from 'fraction.js';
import type { SceneBar, ScenePassage } from '../../protocol/scene';

/** One note as it is heard: a note held over several events sounds once. Seconds from the start of the passage, as written. */
export interface Sounding {
  readonly event: number;
  /** Index into the event's notes. */
  readonly note: number;
  readonly at: number;
  readonly seconds: number;
}

/** One beat of the click track. */
export interface Click {
  readonly at: number;
  /** First of a bar. */
  readonly strong: boolean;
}

export interface Timeline {
  readonly soundings: readonly Sounding[];
  readonly clicks: readonly Click[];
  /** Seconds at which every event begins and the silence after it ends. */
  readonly events: readonly { readonly at: number; readonly end: number }[];
  readonly seconds: number;
}

/** When what sounds, and where the beats fall. */
export function timelineOf(passage: ScenePassage): Timeline {
  const { events, bars } = passage;
  const lasting = events.map((event, index) => {
    const next = events[index + 1];
    const after = event.seconds + seconds(event.rest, event.tempo);
    return { at: event.onset, end: next ? next.onset : event.onset + after };
  });
  const soundings = events.flatMap((event) =>
    event.notes.flatMap((note, index) =>
      note.held
        ? []
        : [{ event: event.index, note: index, at: event.onset, seconds: heldSeconds(passage, event.index, note.sounding) }],
    ),
  );
  return { soundings, clicks: bars.flatMap((bar) => clicksOf(passage, bar)), events: lasting, seconds: lasting.at(-1)?.end ?? 0 };
}

/** How long a note sounds with all that it is held over into. */
function heldSeconds(passage: ScenePassage, index: number, sounding: string): number {
  let seconds = 0;
  for (let at = index; ; at++) {
    const event = passage.events[at];
    if (!event || (at > index && !event.notes.some((note) => note.held && note.sounding === sounding))) return seconds;
    seconds += event.seconds;
  }
}

interface Tempo {
  readonly beat: string;
  readonly bpm: number;
}

function seconds(length: string | Fraction, { beat, bpm }: Tempo): number {
  return (new Fraction(length).div(new Fraction(beat)).valueOf() * 60) / bpm;
}

/** The beats of a bar; those of a short first bar are counted from its end, as an upbeat is. */
function clicksOf(passage: ScenePassage, bar: SceneBar): readonly Click[] {
  const first = passage.events[bar.firstEvent];
  if (!first || bar.endEvent <= bar.firstEvent) return [];
  const beat = beatOf(bar, first.tempo);
  const start = first.onset - seconds(beat, first.tempo) * (mixed(first.beat) - 1);
  const length = new Fraction(bar.length);
  const beats = length.div(beat);
  const whole = Math.floor(beats.valueOf() + 1e-9);
  const upbeat = bar.number === 0 ? beats.sub(whole).valueOf() : 0;
  const each = seconds(beat, first.tempo);
  // A bar that opens with a rest may have begun before its first note, never before the passage.
  return Array.from({ length: whole }, (_, index) => ({
    at: start + (upbeat + index) * each,
    strong: index === 0 && bar.number > 0,
  })).filter(({ at }) => at > -1e-9);
}

/** What is counted: the meter's beat, three of them together in compound time; without a meter the tempo's. */
export function beatOf(bar: Pick<SceneBar, 'meter'>, tempo: Tempo): Fraction {
  const [count = 0, unit = 0] = (bar.meter ?? '').split('/').map(Number);
  if (unit === 0) return new Fraction(tempo.beat);
  return unit >= 8 && count % 3 === 0 ? new Fraction(3, unit) : new Fraction(1, unit);
}

/** `5/2` and `2 1/2` alike. */
function mixed(text: string): number {
  return text.split(' ').reduce((sum, part) => sum + new Fraction(part).valueOf(), 0);
}

/** One bar of beats to count in before an event: how many, and how far apart in seconds as written. */
export function countIn(passage: ScenePassage, event: number): { readonly beats: number; readonly apart: number } {
  const bar = passage.bars.find((each) => event >= each.firstEvent && event < each.endEvent);
  const tempo = passage.events[event]?.tempo;
  if (!bar || !tempo) return { beats: 0, apart: 0 };
  const beat = beatOf(bar, tempo);
  const full = bar.meter === undefined ? new Fraction(1) : new Fraction(bar.meter);
  return { beats: Math.max(1, Math.round(full.div(beat).valueOf())), apart: seconds(beat, tempo) };
}
