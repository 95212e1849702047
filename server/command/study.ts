import type { Overrides } from '../passage/setup';
import { valueFrom } from '../passage/values';
import type { Settings } from '../protocol/settings';
import { createSolver } from '../solver/solve';
import { withProject } from '../workspace/project';
import { DEFAULT_SETTINGS } from '../workspace/settings';
import { type Draft, draft, type Snapshot, solved } from '../workspace/snapshot';
import { STANDARD_INPUT } from './inputs';
import type { Player } from './options';
import { playerAt, playersBeside } from './player-files';
import { projectOf } from './project';

/** One for all files that a thread reads: what one file's notes took to lay out serves the next. */
const solver = createSolver();

/**
 * A text read and fingered for a player; `name` is the file that it came from, beside which the player files that it names
 * are looked for.
 */
export function study(text: string, player: Player, name?: string): Snapshot {
  return fingered(readText(player, name)(text));
}

/** A draft with its passages fingered. */
export function fingered(begun: Draft): Snapshot {
  return solved(begun, undefined, solver);
}

/** Reads texts for a player, without fingering them; with an earlier draft only what changed. */
export function readText(player: Player, name?: string): (text: string, before?: Draft) => Draft {
  const settings = settingsOf(player, name);
  const overrides = overridesOf(player, name);
  return (text, before) => draft(text, (before?.version ?? -1) + 1, settings, before, overrides);
}

/** What the file's project says, and against it the command line. */
export function settingsOf({ chance }: Player, name: string | undefined): Settings {
  const own = projectOf(name === STANDARD_INPUT ? undefined : name)?.project;
  const settings = own ? withProject(DEFAULT_SETTINGS, own) : DEFAULT_SETTINGS;
  return chance === undefined ? settings : { ...settings, safeChance: chance };
}

/** What the command line says against the file, and where the players are whom the file names. */
export function overridesOf({ hand, tempo, player }: Player, name?: string): Overrides {
  const readHand = hand === undefined ? undefined : valueFrom('hand', hand, 'cello');
  const readTempo = tempo === undefined ? undefined : valueFrom('tempo', tempo, 'violin');
  return {
    players: playersBeside(name),
    ...(player !== undefined && { player: playerAt(player, '--player') }),
    ...(readHand && 'value' in readHand && { hand: readHand.value }),
    ...(readTempo && 'value' in readTempo && { tempo: readTempo.value }),
  };
}
