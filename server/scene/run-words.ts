import { countAtRisk, isLong } from '../solver/risks';
import type { Solution } from '../solver/solution';
import { often } from './words';

/** How a run of a passage comes out: `clean 8 times in 10`; of one too long to be thought of as one run, `2 spots at risk`. */
export function runWords(solution: Solution): string {
  if (!isLong(solution)) return `clean ${often(solution.clean)}`;
  const count = countAtRisk(solution);
  return count === 0 ? 'no spot at risk' : count === 1 ? '1 spot at risk' : `${count} spots at risk`;
}
