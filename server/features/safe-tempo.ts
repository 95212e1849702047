import type { Tempo } from '../passage/passage';
import { ceiling } from '../solver/ceiling';
import type { Solution } from '../solver/solution';

const known = new WeakMap<Solution, Map<number, Tempo | undefined>>();

/**
 * The fastest tempo at which a passage comes out clean with a chance, as fingered (see `ceiling`). Looked for once for
 * each solution: it tries many tempos on every note.
 */
export function safeTempo(solution: Solution, chance: number): Tempo | undefined {
  const byChance = known.get(solution) ?? new Map<number, Tempo | undefined>();
  known.set(solution, byChance);
  if (!byChance.has(chance)) byChance.set(chance, ceiling(solution, chance));
  return byChance.get(chance);
}
