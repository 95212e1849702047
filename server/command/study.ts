import type { Overrides } from '../passage/setup';
import { READERS } from '../passage/values';
import { DEFAULT_SETTINGS } from '../workspace/settings';
import { type Snapshot, snapshot } from '../workspace/snapshot';
import type { Player } from './options';
import { playerAt, playersBeside } from './player-files';

/**
 * A text read and fingered for a player; `name` is the file that it came from, beside which the player files that it names
 * are looked for. With the same text's earlier study only what changed is worked out again.
 */
export function study(text: string, player: Player, name?: string, previous?: Snapshot): Snapshot {
  const settings = previous?.settings ?? { ...DEFAULT_SETTINGS, safeChance: player.chance };
  return snapshot(text, (previous?.version ?? -1) + 1, settings, previous, overridesOf(player, name));
}

/** What the command line says against the file, and where the players are whom the file names. */
export function overridesOf({ hand, tempo, player }: Player, name?: string): Overrides {
  const readHand = hand === undefined ? undefined : READERS.hand(hand, 'cello');
  const readTempo = tempo === undefined ? undefined : READERS.tempo(tempo, 'violin');
  return {
    players: playersBeside(name),
    ...(player !== undefined && { player: playerAt(player, '--player') }),
    ...(readHand && 'value' in readHand && { hand: readHand.value }),
    ...(readTempo && 'value' in readTempo && { tempo: readTempo.value }),
  };
}
