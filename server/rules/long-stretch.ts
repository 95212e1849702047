import { t } from '../l10n/translate';
import { PAIN } from '../scene/words';
import { EFFORT } from '../solver/effort';
import type { Finding, PassageRule, Subject } from './rule';
import { spotOf } from './spot';

/** A shape counts as near its limit from this share of the way from comfortable to all there is. Assumption. */
const NEAR = 1 / 3;
/** The same as a term of the cost, which grows with the square. */
const NEAR_COST = EFFORT.stretch * NEAR ** 2;
/** A run is long from so many notes, or so many seconds. Assumption. */
const NOTES = 8;
const SECONDS = 6;

/** Many stretches near the hand's limit one after the other. */
const rule: PassageRule = {
  code: 'long-stretch',
  severity: 'warning',
  on: 'passage',
  check(subject) {
    const { solution, passage } = subject;
    const found: Finding[] = [];
    let run: number[] = [];
    const close = () => {
      if (run.length === 0) return;
      const seconds = run.reduce((sum, event) => sum + passage.events[event]!.spec.seconds, 0);
      if (run.length >= NOTES || (run.length > 1 && seconds >= SECONDS)) found.push(finding(subject, run, seconds));
      run = [];
    };
    for (let event = 0; event < solution.events.length; event++) {
      const wide = (solution.events[event]?.terms.stretch ?? 0) >= NEAR_COST;
      if (wide) run.push(event);
      // A rest lets the hand go; so does a note that does not stretch.
      if (run.length > 0 && (!wide || passage.events[event]!.spec.rest > 0)) close();
    }
    close();
    return found;
  },
};
export default rule;

function finding(subject: Subject, run: readonly number[], seconds: number): Finding {
  const first = spotOf(subject, run[0]!);
  const last = spotOf(subject, run.at(-1)!);
  return {
    span: { start: first.start, end: Math.max(first.end, last.end) },
    message: t(
      '{count} stretches in a row near the limit of this hand, {seconds} s without a rest. Add rests, practise it in pieces, or use fourth harmonics instead of fifths. {pain}',
      { count: run.length, seconds: seconds.toFixed(0), pain: t(PAIN) },
    ),
  };
}
