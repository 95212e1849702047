import { t } from '../l10n/translate';
import { pitchName } from '../music/pitch';
import { wayLabel } from '../scene/scene';
import { listed, printedPitch } from '../scene/words';
import type { Way } from '../solver/way';
import type { Source } from './source';

/** `F♯6`, `E6 and B6`. */
export function pitchesName(ways: readonly Way[]): string {
  return listed(ways.map(({ sounding }) => printedPitch(pitchName(sounding))));
}

/** `II natural 1/4, finger 1`; both parts of a double stop. */
export function mannersName(ways: readonly Way[]): string {
  return ways.map(wayLabel).reduce((one, other) => t('{one} with {other}', { one, other }));
}

/** `bar 4, beat 1`: where an event of the passage stands. */
export function barAndBeat({ solution }: Source, event: number): string {
  const at = solution.passage.events[event];
  return at ? t('bar {bar}, beat {beat}', { bar: at.bar, beat: at.beat.toFraction(true) }) : '';
}
