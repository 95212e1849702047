import { absolute } from '../../grammar/at';
import type { Span } from '../../grammar/tree';
import { t } from '../l10n/translate';
import type { Settings } from '../protocol/settings';
import { runWords } from '../scene/run-words';
import type { Solution } from '../solver/solution';
import type { SolvedReading } from './reading';
import { safeTempoWords } from './safe-tempo';

/** A fact above a passage, short: an editor cuts a line of lenses that is wider than it. A click shows the place that it is about. */
export interface Lens {
  readonly span: Span;
  readonly title: string;
  /** What there is no room for above the passage. */
  readonly tooltip?: string;
  /** What a click shows; absent where there is nothing to go to. */
  readonly reveal?: Span;
}

/** How often a passage comes out, the safe tempo behind it, and its hardest spot. */
export function lenses(reading: SolvedReading, settings: Settings): readonly Lens[] {
  if (!settings.passageLens) return [];
  return reading.solutions.flatMap((solution, index) => {
    const passage = reading.resolved.passages[index];
    const line = reading.tree.lines[passage?.lines.first ?? 0];
    if (!passage || !line || passage.events.every(({ spec }) => spec.notes.length === 0)) return [];
    const span = { start: line.start, end: line.start };
    return solution.unplayables.length > 0
      ? [stuck(reading, solution, span)]
      : [
          { span, title: runWords(solution), tooltip: safeTempoWords(solution, settings.safeChance) },
          ...hardest(reading, solution, span),
        ];
  });
}

function stuck(reading: SolvedReading, { passage, unplayables }: Solution, span: Span): Lens {
  const count = unplayables.length;
  const first = place(reading, passage.events[unplayables[0]?.event ?? -1]);
  return {
    span,
    title: count === 1 ? t('1 note cannot be played') : t('{count} notes cannot be played', { count }),
    tooltip: t('Go to the first of them.'),
    ...(first && { reveal: first }),
  };
}

function hardest(reading: SolvedReading, { passage, events, hardest: at }: Solution, span: Span): Lens[] {
  const event = passage.events[at];
  const reveal = place(reading, event);
  if (!event || !reveal || !events[at]?.fingering.ways.length) return [];
  const written = reading.tree.text.slice(reveal.start, reveal.end);
  return [
    {
      span,
      title: t('hardest: bar {bar}', { bar: event.bar }),
      tooltip: t('Go to {written} in bar {bar}.', { written, bar: event.bar }),
      reveal,
    },
  ];
}

function place({ tree }: SolvedReading, event: Solution['passage']['events'][number] | undefined): Span | undefined {
  const line = event && tree.lines[event.source.line];
  return event && line ? absolute(line, event.source.span) : undefined;
}
