import { READERS } from '../passage/values';
import { DEFAULT_SETTINGS } from '../workspace/settings';
import { type Snapshot, snapshot } from '../workspace/snapshot';
import type { Player } from './options';

/** A text read and fingered for a player. With the same text's earlier study only what changed is worked out again. */
export function study(text: string, player: Player, previous?: Snapshot): Snapshot {
  const settings = previous?.settings ?? { ...DEFAULT_SETTINGS, safeChance: player.chance };
  return snapshot(text, (previous?.version ?? -1) + 1, settings, previous, overrides(player));
}

function overrides({ hand, tempo }: Player) {
  const readHand = hand === undefined ? undefined : READERS.hand(hand, 'cello');
  const readTempo = tempo === undefined ? undefined : READERS.tempo(tempo, 'violin');
  return {
    ...(readHand && 'value' in readHand && { hand: readHand.value }),
    ...(readTempo && 'value' in readTempo && { tempo: readTempo.value }),
  };
}
