import { t } from '../l10n/translate';
import { LIMITS, often } from '../scene/words';
import { type Ceiling, ceiling } from '../solver/ceiling';
import type { Solution } from '../solver/solution';

const known = new WeakMap<Solution, Map<number, Ceiling | undefined>>();

/**
 * The fastest tempo at which a passage comes out clean with a chance, as fingered (see `ceiling`). Looked for once for
 * each solution: it tries many tempos on every note.
 */
export function safeTempo(solution: Solution, chance: number): Ceiling | undefined {
  const byChance = known.get(solution) ?? new Map<number, Ceiling | undefined>();
  known.set(solution, byChance);
  if (!byChance.has(chance)) byChance.set(chance, ceiling(solution, chance));
  return byChance.get(chance);
}

/** What is safe about a tempo, and what limits it, in one sentence. */
export function safeTempoWords(solution: Solution, chance: number): string {
  const safe = safeTempo(solution, chance);
  const clean = t('clean {chance}', { chance: often(chance) });
  if (!safe) return t('No tempo is slow enough for it to come out {clean}.', { clean });
  if (safe.limit === 'none') return t('At any tempo it comes out {clean}.', { clean });
  return t('Up to {tempo} it comes out {clean}; beyond that the limit is {limit}.', {
    tempo: `${safe.beat.toFraction()} = ${safe.bpm}`,
    clean,
    limit: t(LIMITS[safe.limit]),
  });
}
