import { ONE_SPOT, touchToStop } from '../instrument/offset';
import { t } from '../l10n/translate';
import { mmWords } from '../scene/words';
import type { Way } from '../solver/way';
import type { EventRule, Finding } from './rule';
import { spotOf } from './spot';

/** A touched place and then a stopped one on the same spot, or the other way round: the finger must move a little. */
const rule: EventRule = {
  code: 'same-spot',
  severity: 'information',
  on: 'event',
  check(subject, { fingering: { ways } }, event) {
    const before = subject.solution.events[event - 1]?.fingering.ways;
    if (!before) return undefined;
    const { instrument } = subject.passage.setup;
    let found: Finding[] | undefined;
    for (let note = 0; note < ways.length; note++) {
      const now = ways[note]!;
      const there = before.find((way) => isSameSpot(way, now));
      if (!there) continue;
      const toStop = now.kind === 'stopped';
      const [touch, stop] = toStop ? [there.touch!, now.stop!] : [now.touch!, there.stop!];
      const toNut = touchToStop(instrument, instrument.strings[now.string]!, touch.mm, stop.mm);
      const holes = { distance: mmWords(Math.abs(toNut)), end: toStop === toNut > 0 ? t('nut') : t('bridge') };
      found ??= [];
      found.push({
        span: spotOf(subject, event, note),
        message: toStop
          ? t(
              'Same spot as the note before, but stopped now instead of touched: move the finger about {distance} toward the {end}. A stopping finger ends the string at its bridge-side edge and stretches it; a touching finger works from its middle.',
              holes,
            )
          : t(
              'Same spot as the note before, but touched now instead of stopped: move the finger about {distance} toward the {end}. A stopping finger ends the string at its bridge-side edge and stretches it; a touching finger works from its middle.',
              holes,
            ),
      });
    }
    return found;
  },
};
export default rule;

/** True for a natural harmonic and a stopped note, in either order, by one finger at one spot of a string. */
function isSameSpot(before: Way, now: Way): boolean {
  if (before.string !== now.string) return false;
  const [natural, stopped] = now.kind === 'stopped' ? [before, now] : [now, before];
  if (natural.kind !== 'natural' || stopped.kind !== 'stopped') return false;
  const [touch, stop] = [natural.touch!, stopped.stop!];
  return touch.finger === stop.finger && Math.abs(touch.mm - stop.mm) <= ONE_SPOT;
}
