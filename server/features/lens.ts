import { absolute } from '../../grammar/at';
import type { Span } from '../../grammar/tree';
import type { Settings } from '../protocol/settings';
import { runWords } from '../scene/run-words';
import type { Solution } from '../solver/solution';
import type { SolvedReading } from './reading';
import { safeTempo } from './safe-tempo';

/** A fact above a passage, short: an editor cuts a line of lenses that is wider than it. A click shows the place that it is about. */
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
    return solution.unplayables.length > 0
      ? [stuck(reading, solution, span)]
      : [{ span, title: runWords(solution) }, tempo(solution, settings, span), ...hardest(reading, solution, span)];
  });
}

function stuck(reading: SolvedReading, { passage, unplayables }: Solution, span: Span): Lens {
  const count = unplayables.length;
  const first = place(reading, passage.events[unplayables[0]?.event ?? -1]);
  return {
    span,
    title: count === 1 ? '1 note cannot be played' : `${count} notes cannot be played`,
    ...(first && { reveal: first }),
  };
}

function tempo(solution: Solution, { safeChance }: Settings, span: Span): Lens {
  const safe = safeTempo(solution, safeChance);
  if (!safe) return { span, title: 'no safe tempo' };
  return { span, title: safe.limit === 'none' ? 'safe at any tempo' : `safe to ${safe.beat.toFraction()} = ${safe.bpm}` };
}

function hardest(reading: SolvedReading, { passage, events, hardest: at }: Solution, span: Span): Lens[] {
  const event = passage.events[at];
  const reveal = place(reading, event);
  if (!event || !reveal || !events[at]?.fingering.ways.length) return [];
  return [{ span, title: `hardest: bar ${event.bar}`, reveal }];
}

function place({ tree }: SolvedReading, event: Solution['passage']['events'][number] | undefined): Span | undefined {
  const line = event && tree.lines[event.source.line];
  return event && line ? absolute(line, event.source.span) : undefined;
}
