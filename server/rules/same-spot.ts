import { ONE_SPOT, touchToStop } from '../instrument/offset';
import { mmWords } from '../scene/words';
import type { EventRule } from './rule';
import { spotOf } from './spot';

/** A touched place and then a stopped one on the same spot, or the other way round: the finger must move a little. */
const rule: EventRule = {
  code: 'same-spot',
  severity: 'information',
  on: 'event',
  check(subject, { fingering }, event) {
    const { solution, passage } = subject;
    const before = solution.events[event - 1]?.fingering.ways[0];
    const now = fingering.ways[0];
    if (!before || !now || before.string !== now.string) return undefined;
    const toStop = before.kind === 'natural' && now.kind === 'stopped';
    if (!toStop && !(before.kind === 'stopped' && now.kind === 'natural')) return undefined;
    const touch = (toStop ? before : now).touch!;
    const stop = (toStop ? now : before).stop!;
    if (touch.finger !== stop.finger || Math.abs(touch.mm - stop.mm) > ONE_SPOT) return undefined;
    const { instrument } = passage.setup;
    const toNut = touchToStop(instrument, instrument.strings[now.string]!, touch.mm, stop.mm);
    return [
      {
        span: spotOf(subject, event, 0),
        message:
          `Same spot as the note before, but ${toStop ? 'stopped now instead of touched' : 'touched now instead of stopped'}: move the finger about ${mmWords(Math.abs(toNut))} toward the ${toStop === toNut > 0 ? 'nut' : 'bridge'}. ` +
          'A stopping finger ends the string at its bridge-side edge and stretches it; a touching finger works from its middle.',
      },
    ];
  },
};
export default rule;
