import { pathAt } from '../../grammar/at';
import type { Span } from '../../grammar/tree';
import { t } from '../l10n/translate';
import { unpinEdits } from '../rules/pinning';
import { labelOf } from '../rules/spot';
import type { Fingering, Solution } from '../solver/solution';
import type { Action } from './action';
import { type EventSpot, eventsAt, passageOn } from './locate';
import { otherWays } from './other-ways';
import { pinAll } from './pin-choice';
import type { SolvedReading } from './reading';

/** Other fingerings offered in the list of actions; the hover shows more. */
const MOST_ALTERNATIVES = 3;

/** Writes chosen fingerings into the text as hints, and takes hints away again. */
export function pinActions(reading: SolvedReading, span: Span): readonly Action[] {
  const { tree, resolved, solutions } = reading;
  const spot = pathAt(tree, span.start);
  const passage = passageOn(resolved.passages, spot.index);
  const solution = solutions[passage];
  if (!solution) return [];
  const all = solution.passage.events.map((source, event): EventSpot => ({ passage, event, source }));
  const chosen =
    span.end > span.start ? all.filter(({ source }) => meets(reading, source.source, span)) : eventsAt(resolved.passages, spot);
  const one = chosen.length === 1 ? chosen[0] : undefined;
  const found: Action[] = [];
  if (one) found.push(...noteActions(reading, one));
  else if (chosen.length > 1)
    found.push(
      ...groupActions(reading, solution, chosen, [t('Pin the selected notes as fingered'), t('Unpin the selected notes')]),
    );
  // On its name; where it has none, on the line that it begins with.
  const named = tree.lines[solution.passage.lines.first]?.node.kind === 'passage';
  const head = named ? solution.passage.lines.first : solution.passage.events[0]?.source.line;
  if (spot.index === head)
    found.push(...groupActions(reading, solution, all, [t('Pin the passage as fingered'), t('Unpin the passage')]));
  return found;
}

function noteActions(reading: SolvedReading, spot: EventSpot): readonly Action[] {
  const solution = reading.solutions[spot.passage];
  const solved = solution?.events[spot.event];
  if (!solution || !solved) return [unpin(reading, [spot], t('Unpin this note'))];
  const pin = (fingering: Fingering, title: string): Action => ({
    title,
    kind: 'rewrite',
    edits: pinAll(reading, solution.passage, new Map([[spot.event, fingering]])),
  });
  return [
    pin(solved.fingering, t('Pin this note: {fingering}', { fingering: labelOf(solved.fingering) })),
    ...otherWays(solution, spot.event)
      .slice(0, MOST_ALTERNATIVES)
      .map(({ fingering, extraCost, label }) =>
        pin(fingering, t('Play it as {label} (+{cost})', { label, cost: extraCost.toFixed(2) })),
      ),
    unpin(reading, [spot], t('Unpin this note')),
  ];
}

function groupActions(
  reading: SolvedReading,
  solution: Solution,
  spots: readonly EventSpot[],
  [pin, unpinning]: readonly [pin: string, unpin: string],
): readonly Action[] {
  const choices = new Map<number, Fingering>();
  for (const { event } of spots) {
    const solved = solution.events[event];
    if (solved) choices.set(event, solved.fingering);
  }
  const edits = pinAll(reading, solution.passage, choices);
  return [{ title: pin, kind: 'rewrite', edits }, unpin(reading, spots, unpinning)];
}

function unpin(reading: SolvedReading, spots: readonly EventSpot[], title: string): Action {
  const edits = spots.flatMap(({ passage, event }) => {
    const at = reading.resolved.passages[passage];
    return at ? unpinEdits(reading.tree, at, event) : [];
  });
  return { title, kind: 'rewrite', edits };
}

function meets({ tree }: SolvedReading, source: { readonly line: number; readonly span: Span }, span: Span): boolean {
  const start = (tree.lines[source.line]?.start ?? 0) + source.span.start;
  return start < span.end && span.start < start + source.span.end - source.span.start;
}
