import { t } from '../l10n/translate';
import { countAtRisk, isLong } from '../solver/risks';
import type { Solution } from '../solver/solution';
import { often } from './words';

/** How a run of a passage comes out: `clean 8 times in 10`; of one too long to be thought of as one run, `2 spots at risk`. */
export function runWords(solution: Solution): string {
  if (!isLong(solution)) return t('clean {clean}', { clean: often(solution.clean) });
  const count = countAtRisk(solution);
  return count === 0 ? t('no spot at risk') : count === 1 ? t('1 spot at risk') : t('{count} spots at risk', { count });
}
