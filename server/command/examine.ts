import { PLAYER_ENDING } from '../player/player-choice';
import { readPlayer } from '../player/read-player';
import type { Certainty } from '../rules/rule';
import { CannotRun } from './cannot-run';
import { type Finding, findingsOf } from './finding';
import { readBytes, reportedName, STANDARD_INPUT, strictText } from './inputs';
import type { Player } from './options';
import { repair } from './repair';
import { replaceFile } from './replace-file';
import { fingered, readText, study } from './study';

/** One file to check. Plain data: it may be handed to another thread. */
export interface Job {
  readonly name: string;
  /** The path that standard input stands for: it is told under it, and looks for players and its project there. */
  readonly as?: string;
  readonly player: Player;
  readonly fix?: {
    readonly certainty: Certainty;
    /** Otherwise the file stays as it is, and what would be done to it is told. */
    readonly write: boolean;
  };
}

export interface Examined {
  readonly name: string;
  readonly as?: string;
  /** As it stands after any fixes. */
  readonly text: string;
  /** As it stood before, where fixes changed it. */
  readonly before?: string;
  readonly findings: readonly Finding[];
  /** Fixes applied. */
  readonly applied: number;
  /** Why the file could not be read or written; there are no findings then. */
  readonly refused?: string;
}

/** Reads and checks one file, fixing it first where asked to. A file that can't be read is told of and keeps no other from its turn. */
export function examine(job: Job): Examined {
  const called = { name: job.name, ...(job.as !== undefined && { as: job.as }) };
  try {
    return { ...called, ...examined(job) };
  } catch (error) {
    if (!(error instanceof CannotRun)) throw error;
    return { ...called, text: '', findings: [], applied: 0, refused: error.message };
  }
}

function examined({ name, as = name, player, fix }: Job): Omit<Examined, 'name' | 'as'> {
  const file = reportedName(as);
  const bytes = readBytes(name);
  const { text, mark } = strictText(bytes, as);
  if (isPlayerFile(as)) {
    const { lines, problems } = readPlayer(text);
    const told = problems.map(({ fixes, ...problem }) => ({ ...problem, fixes: fixes }));
    return { text, findings: findingsOf({ tree: { text, lines }, problems: told }, file), applied: 0 };
  }
  if (!fix) return { text, findings: findingsOf(study(text, player, as), file), applied: 0 };
  const { draft, applied } = repair(text, readText(player, as), fix.certainty);
  const fixed = draft.tree.text;
  if (applied > 0 && fix.write && name !== STANDARD_INPUT) replaceFile(name, mark + fixed, bytes);
  // What is only shown needs no fingering.
  const findings = fix.write ? findingsOf(fingered(draft), file) : [];
  return { text: fixed, ...(applied > 0 && { before: text }), findings, applied };
}

/** A player's own file has its own things to find. */
function isPlayerFile(name: string): boolean {
  return name.toLowerCase().endsWith(PLAYER_ENDING);
}
