import Fraction from 'fraction.js';
import { tremoloValue } from '../../music/tremolo';
import { BY_TURNS } from '../../passage/ornament';
import type { SceneEvent } from '../../protocol/scene';
import { type Turn, turnsOf } from './ornaments';

/** How much of its written time a note sounds. Common practice, no source; plucked strings ring on. */
const SHARE: Readonly<Record<string, number>> = { staccato: 0.5, spiccato: 0.45, staccatissimo: 0.3 };
/** Seconds of one stroke of an unmeasured tremolo. Assumption. */
const STROKE = 0.085;
/** Strokes beyond this are heard as no more. */
const MOST_STROKES = 400;

/** When the strokes or turns of a note begin and how long each sounds, in seconds from its onset; one for most notes. */
export function soundedStrokes(event: SceneEvent, seconds: number): readonly Turn[] {
  const marks = event.marks ?? [];
  const share = Math.min(1, ...marks.map(({ word }) => SHARE[word] ?? 1));
  const tremolo = marks.find(({ word }) => word === 'tremolo');
  const turns = turnsOf(event, seconds);
  if (turns) return turns;
  if (!tremolo || seconds <= 0) return [{ at: 0, seconds: seconds * share, above: 0 }];
  const duration = new Fraction(event.duration);
  const count = tremolo.strokes
    ? Math.round(duration.div(tremoloValue(duration, tremolo.strokes)).valueOf())
    : Math.round(seconds / STROKE);
  const strokes = Math.min(MOST_STROKES, Math.max(1, count));
  return Array.from({ length: strokes }, (_, stroke) => ({
    at: (seconds * stroke) / strokes,
    seconds: (seconds / strokes) * share,
    above: 0,
  }));
}

/**
 * The strokes of one of two notes that are played by turns, over the time of both, in seconds from its own onset (the second's begin
 * before it); undefined for any other note.
 */
export function byTurns(events: readonly SceneEvent[], index: number): readonly Turn[] | undefined {
  const second = events[index]?.alternates ? index : index + 1;
  const [one, two] = [events[second - 1], events[second]];
  if (!one || !two?.alternates) return undefined;
  const seconds = one.seconds + two.seconds;
  const { strokes } = two.marks?.find(({ word }) => word === BY_TURNS) ?? {};
  const whole = new Fraction(one.duration).add(two.duration);
  const pairs = strokes ? whole.div(tremoloValue(whole, strokes)).valueOf() / 2 : seconds / STROKE / 2;
  const count = Math.min(MOST_STROKES / 2, Math.max(1, Math.round(pairs)));
  const each = seconds / count / 2;
  const late = second === index ? each - one.seconds : 0;
  return Array.from({ length: count }, (_, turn) => ({ at: late + 2 * turn * each, seconds: each, above: 0 }));
}

/** What marks add to the loudness of a note, as a share of it. Assumption. */
export function stressOf({ marks = [] }: SceneEvent): number {
  return Math.max(0, ...marks.map(({ word }) => STRESS[word] ?? 0));
}
const STRESS: Readonly<Record<string, number>> = {
  accent: 0.15,
  marcato: 0.25,
  sf: 0.25,
  sfz: 0.3,
  sffz: 0.35,
  fz: 0.25,
  rf: 0.2,
  rfz: 0.2,
  sfp: 0.25,
  fp: 0.2,
};
