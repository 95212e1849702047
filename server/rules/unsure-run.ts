import { t } from '../l10n/translate';
import { spotWords } from '../scene/spot-words';
import { listed, often } from '../scene/words';
import { leastSureStretch } from '../solver/risks';
import type { PassageRule } from './rule';
import { spotOf } from './spot';
import { RISKY } from './tempo-risk';

/** A stretch that comes out less often than this is told, though none of its notes is a great risk by itself. Assumption. */
const HOPELESS = 1 / 3;
/** Spots that are named. */
const MOST = 3;

/** Many small risks that together leave little hope of a clean run. */
const rule: PassageRule = {
  code: 'unsure-run',
  severity: 'information',
  on: 'passage',
  check(subject) {
    const { solution } = subject;
    if (solution.clean >= HOPELESS || solution.unplayables.length > 0) return [];
    const stretch = leastSureStretch(solution);
    if (!stretch || stretch.chance >= HOPELESS) return [];
    const spots = solution.events
      .slice(stretch.from, stretch.to + 1)
      .flatMap((solved, at) => (solved ? [{ event: stretch.from + at, solved }] : []))
      .sort((a, b) => a.solved.chance - b.solved.chance || a.event - b.event)
      .slice(0, MOST);
    // A note that is a risk by itself has been told at its place.
    if (spots[0]!.solved.chance < RISKY) return [];
    const named = spots.map(({ event }) => spotWords(solution, event));
    return [
      {
        span: spotOf(subject, spots[0]!.event),
        message: t(
          'No note here is very risky by itself, but at this tempo the whole run comes out clean {chance}. The least certain: {named}. Practise these, slow down, or set a higher level for a more advanced player.',
          { chance: often(stretch.chance), named: listed(named) },
        ),
      },
    ];
  },
};
export default rule;
