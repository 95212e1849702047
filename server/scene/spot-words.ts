import { t } from '../l10n/translate';
import { pitchName } from '../music/pitch';
import type { Solution } from '../solver/solution';
import { often, printedPitch } from './words';

/** A spot and how often it comes out, as text names it: `G♯4+G♯5 in bar 2 (8 times in 10)`. It must be playable. */
export function spotWords({ events, passage }: Solution, event: number): string {
  const { fingering, chance } = events[event]!;
  const pitches = fingering.ways.map(({ sounding }) => printedPitch(pitchName(sounding))).join('+');
  return t('{pitches} in bar {bar} ({chance})', { pitches, bar: passage.events[event]!.bar, chance: often(chance) });
}
