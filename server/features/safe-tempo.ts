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
