import { absolute } from '../../grammar/at';
import type { Span } from '../../grammar/tree';
import { pitchName } from '../music/pitch';
import type { Settings } from '../protocol/settings';
import { percent, printedPitch } from '../scene/words';
import type { Solution } from '../solver/solution';
import type { SolvedReading } from './reading';
import { safeTempo } from './safe-tempo';

/** A line of facts above a passage; a click shows the place that one is about. */
export interface Lens {
  readonly span: Span;
  readonly title: string;
  /** What a click shows; absent where there is nothing to go to. */
  readonly reveal?: Span;
}

/** Chance, fastest safe tempo and hardest spot of every passage. */
export function lenses(reading: SolvedReading, settings: Settings): readonly Lens[] {
  if (!settings.passageLens) return [];
  return reading.solutions.flatMap((solution, index) => {
    const passage = reading.resolved.passages[index];
    const line = reading.tree.lines[passage?.lines.first ?? 0];
    if (!passage || !line || passage.events.every(({ spec }) => spec.notes.length === 0)) return [];
    const span = { start: line.start, end: line.start };
    return solution.deadlocks.length > 0
      ? [stuck(reading, solution, span)]
      : [
          { span, title: `clean ${percent(solution.clean)}` },
          tempo(solution, settings, span),
          ...hardest(reading, solution, span),
        ];
  });
}

function stuck(reading: SolvedReading, { passage, deadlocks }: Solution, span: Span): Lens {
  const count = deadlocks.length;
  const first = place(reading, passage.events[deadlocks[0]?.event ?? -1]);
  return {
    span,
    title: count === 1 ? '1 note cannot be played' : `${count} notes cannot be played`,
    ...(first && { reveal: first }),
  };
}

function tempo(solution: Solution, { safeChance }: Settings, span: Span): Lens {
  const safe = safeTempo(solution, safeChance);
  const title = safe
    ? `${percent(safeChance)} clean up to ${safe.beat.toFraction()} = ${safe.bpm}`
    : `no tempo is slow enough for ${percent(safeChance)} clean`;
  return { span, title };
}

function hardest(reading: SolvedReading, { passage, events, hardest: at }: Solution, span: Span): Lens[] {
  const event = passage.events[at];
  const solved = events[at];
  const reveal = place(reading, event);
  if (!event || !solved || !reveal || solved.fingering.ways.length === 0) return [];
  const names = solved.fingering.ways.map(({ sounding }) => printedPitch(pitchName(sounding))).join('+');
  return [{ span, title: `hardest: ${names} in bar ${event.bar}`, reveal }];
}

function place({ tree }: SolvedReading, event: Solution['passage']['events'][number] | undefined): Span | undefined {
  const line = event && tree.lines[event.source.line];
  return event && line ? absolute(line, event.source.span) : undefined;
}
