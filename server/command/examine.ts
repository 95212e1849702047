import { writeFileSync } from 'node:fs';
import { PLAYER_ENDING } from '../passage/player-choice';
import { readPlayer } from '../player/read-player';
import { type Finding, findingsOf } from './finding';
import { readInput, STANDARD_INPUT } from './inputs';
import type { Player } from './options';
import { repair } from './repair';
import { study } from './study';

/** One file to check. Plain data: it may be handed to another thread. */
export interface Job {
  readonly name: string;
  readonly player: Player;
  readonly fix: boolean;
}

export interface Examined {
  readonly name: string;
  /** As it stands after any cures. */
  readonly text: string;
  readonly findings: readonly Finding[];
  /** Cures applied. */
  readonly applied: number;
}

/** Reads and checks one file, curing it on disk first where asked to. */
export function examine({ name, player, fix }: Job): Examined {
  const file = fileName(name);
  const text = readInput(name);
  if (isPlayerFile(name)) {
    const { lines, problems } = readPlayer(text);
    const told = problems.map(({ cures, ...problem }) => ({ ...problem, fixes: cures }));
    return { name, text, findings: findingsOf({ tree: { text, lines }, problems: told }, file), applied: 0 };
  }
  if (!fix || file === undefined) return { name, text, findings: findingsOf(study(text, player, name), file), applied: 0 };
  const { snapshot: after, applied } = repair(text, player, name);
  if (applied > 0) writeFileSync(name, after.tree.text);
  return { name, text: after.tree.text, findings: findingsOf(after, file), applied };
}

/** A player's own file has its own things to find. */
function isPlayerFile(name: string): boolean {
  return name.endsWith(PLAYER_ENDING);
}

/** As reports name it: with `/`, and absent for standard input. */
export function fileName(name: string): string | undefined {
  return name === STANDARD_INPUT ? undefined : name.replaceAll('\\', '/');
}
