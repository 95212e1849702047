import { lineAt } from '../../grammar/at';
import { t } from '../l10n/translate';
import { hintsFor } from '../rules/pinning';
import { alternatives } from '../solver/alternatives';
import type { Fingering } from '../solver/solution';
import type { Offer } from './completion';
import { passageOn } from './locate';
import type { SolvedReading } from './reading';

/** Ways that are offered inside brackets; the words of the language follow them. */
const MOST = 8;

/**
 * The ways of playing the note whose hints are being written, as hints, cheapest first. `before` are the hints that stand already:
 * only ways that keep to them are offered, and of those what is still missing.
 */
export function wayOffers(
  { tree, resolved, solutions }: SolvedReading,
  offset: number,
  before: readonly string[],
): readonly Offer[] {
  const index = lineAt(tree, offset);
  const column = offset - (tree.lines[index]?.start ?? 0);
  const passage = passageOn(resolved.passages, index);
  const solution = solutions[passage];
  if (!solution) return [];
  const event = solution.passage.events.findLastIndex(
    ({ source }) => !source.definition && source.line === index && source.span.start < column,
  );
  const at = solution.passage.events[event];
  const solved = solution.events[event];
  const note = at?.source.notes.findLastIndex(({ span }) => span.start < column) ?? -1;
  const spec = at?.spec.notes[note];
  if (!at || !solved || !spec) return [];
  const found = new Map<string, number>();
  const add = (fingering: Fingering, extraCost: number) => {
    const way = fingering.ways[note];
    const words = way ? hintsFor(way, spec, fingering, solution.passage.setup).split(' ') : [];
    const missing = words.filter((word) => !before.includes(word)).join(' ');
    const keeps = before.every((word) => words.includes(word));
    if (keeps && missing !== '' && !found.has(missing)) found.set(missing, extraCost);
  };
  add(solved.fingering, 0);
  for (const { fingering, extraCost } of alternatives(solution, event)) {
    if (found.size >= MOST) break;
    add(fingering, extraCost);
  }
  return [...found].map(([label, extraCost]) => ({
    label,
    kind: 'hint',
    detail: extraCost === 0 ? t('The easiest way here.') : t('Costs {cost} more.', { cost: extraCost.toFixed(2) }),
  }));
}
