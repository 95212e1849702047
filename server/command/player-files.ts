import { existsSync, readFileSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { PLAYER_ENDING, type PlayerAnswer, type PlayerChoice, type PlayerLookup } from '../player/player-choice';
import { choiceOf, type PlayerFile } from '../player/player-file';
import { readPlayer } from '../player/read-player';
import { LONGEST_PLAYER } from '../protocol/messages';
import { namedPlayers } from '../workspace/players';
import { CannotRun } from './cannot-run';
import { decode } from './decode';
import { readInput, STANDARD_INPUT } from './inputs';

/** The player files that a passage names, looked for beside it; those of standard input in the current folder. */
export function playersBeside(name: string | undefined): PlayerLookup {
  const folder = name === undefined || name === STANDARD_INPUT ? '.' : dirname(name);
  const known = new Map<string, PlayerAnswer>();
  return (path) => {
    const answer = known.get(path) ?? answerOf(join(folder, path));
    known.set(path, answer);
    return answer;
  };
}

/** Where the player files are that a passage file names. */
export function playersOf(name: string): readonly string[] {
  if (name === STANDARD_INPUT || name.endsWith(PLAYER_ENDING)) return [];
  try {
    return namedPlayers(readInput(name)).map((file) => join(dirname(name), file));
  } catch {
    // Whoever reads it for its own sake says why it can't be read.
    return [];
  }
}

/** The player of a file that the command line names. */
export function playerAt(path: string, option: string): PlayerChoice {
  const answer = answerOf(path);
  if ('missing' in answer) throw new CannotRun(`${option}: ${path} can't be used: ${answer.missing}.`);
  return answer.choice;
}

function answerOf(path: string): PlayerAnswer {
  const read = fileAt(path);
  if ('missing' in read) return read;
  return { choice: choiceOf(read.file, playerName(path)), faults: read.file.problems.length };
}

/** `ines` for `scores/ines.player`. */
function playerName(path: string): string {
  return basename(path).replace(/\.[^.]*$/, '');
}

function fileAt(path: string): { readonly file: PlayerFile } | { readonly missing: string } {
  if (!existsSync(path)) return { missing: 'there is no such file' };
  try {
    const found = statSync(path);
    if (!found.isFile()) return { missing: found.isDirectory() ? 'it is a folder' : 'it is not a plain file' };
    if (found.size > LONGEST_PLAYER) return { missing: 'it is too large to be a player file' };
    return { file: readPlayer(decode(readFileSync(path), path).text) };
  } catch (error) {
    return { missing: `it can't be read (${error instanceof Error ? error.message : String(error)})` };
  }
}
