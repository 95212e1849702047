import { fingerOffset } from '../instrument/offset';
import type { Passage } from '../passage/passage';
import { mmWords } from '../scene/words';
import type { Way } from '../solver/way';
import type { Rule } from './rule';
import { spotOf } from './spot';

/** Two places no further apart than this are one spot to a player, mm. */
const ONE_SPOT = 4;

/** A touched place and then a stopped one on the same spot, or the other way round: the finger must move a little. */
const rule: Rule = {
  code: 'same-spot',
  severity: 'information',
  on: 'solution',
  check(subject) {
    const { solution, passage } = subject;
    return solution.events.flatMap((solved, event) => {
      const before = solution.events[event - 1]?.fingering.ways[0];
      const now = solved?.fingering.ways[0];
      if (!before || !now || before.string !== now.string) return [];
      const toStop = touchedOnly(before) !== undefined && now.kind === 'stopped';
      const toTouch = before.kind === 'stopped' && touchedOnly(now) !== undefined;
      const [touched, stopped] = toStop ? [before.touch!, now.stop!] : toTouch ? [now.touch!, before.stop!] : [];
      if (!touched || !stopped || Math.abs(touched.mm - stopped.mm) > ONE_SPOT || touched.finger !== stopped.finger) return [];
      const offset = offsetAt(passage, now, touched.mm);
      return [
        {
          span: spotOf(subject, event, 0),
          message:
            `Same spot as the note before, but ${toStop ? 'stopped now instead of touched' : 'touched now instead of stopped'}: move the finger about ${mmWords(offset)} toward the ${toStop ? 'nut' : 'bridge'}. ` +
            'A stopping finger ends the string at its bridge-side edge and stretches it; a touching finger works from its middle.',
          fixes: [],
        },
      ];
    });
  },
};
export default rule;

function touchedOnly(way: Way): Way['touch'] {
  return way.kind === 'natural' ? way.touch : undefined;
}

function offsetAt({ setup }: Passage, way: Way, mm: number): number {
  return fingerOffset(setup.instrument, setup.instrument.strings[way.string]!, mm).total;
}
