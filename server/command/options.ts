import { whyOf } from '../../grammar/values/read-value';
import { valueFrom } from '../passage/values';
import { CannotRun } from './cannot-run';
import { SEVERITIES, type Severity } from './listing';
import { playerAt } from './player-files';

/** What every command that fingers passages understands, as the command line gives it. */
export interface PlayerOptions {
  readonly hand?: string;
  readonly player?: string;
  readonly tempo?: string;
  readonly chance?: string;
  readonly failOn?: string;
}

/** Who plays, as far as the command line says, checked. Words, not what they are read to: it may go to another thread. */
export interface Player {
  /** Instead of the file's. */
  readonly hand?: string;
  /** Path of the file of whoever plays instead of the file's player and hand. */
  readonly player?: string;
  /** Instead of every tempo of the file. */
  readonly tempo?: string;
  /** Chance of a clean run that a safe tempo keeps, above 0 and below 1, instead of the project's. */
  readonly chance?: number;
}

export function playerFrom(options: PlayerOptions): Player {
  const { hand, player, tempo } = options;
  if (player !== undefined) playerAt(player, '--player');
  return {
    ...(options.chance !== undefined && { chance: chanceFrom(options.chance) }),
    ...(hand !== undefined && { hand: handFrom(hand) }),
    ...(player !== undefined && { player }),
    ...(tempo !== undefined && { tempo: tempoFrom(tempo) }),
  };
}

/** Cello is asked since its hands may have a thumb; whether this instrument has one is seen when the file is read. */
export function handFrom(words: string): string {
  const read = valueFrom('hand', words, 'cello');
  if ('faults' in read) throw new CannotRun(`--hand: ${whyOf(read)}.`);
  return words;
}

/** `1/4 = 96`; a bare number counts quarters. */
function tempoFrom(words: string): string {
  const whole = Number(words) > 0 ? `1/4 = ${words.trim()}` : words;
  const read = valueFrom('tempo', whole, 'violin');
  if ('faults' in read) throw new CannotRun(`--tempo: ${whyOf(read)}.`);
  return whole;
}

function chanceFrom(chance: string): number {
  const value = Number(chance);
  if (value > 0 && value < 1) return value;
  throw new CannotRun(`--chance: ${chance} is not a chance; write a number above 0 and below 1, such as 0.8.`);
}

/** True when a finding of this severity fails the run. */
export function failsOn({ failOn = 'error' }: PlayerOptions): (severity: Severity) => boolean {
  if (failOn === 'never') return () => false;
  const least = SEVERITIES.indexOf(failOn as Severity);
  if (least === -1) throw new CannotRun(`--fail-on: ${failOn} is not one of ${SEVERITIES.join(', ')}, never.`);
  return (severity) => SEVERITIES.indexOf(severity) <= least;
}

export function formatFrom<F extends string>(format: string, known: readonly F[]): F {
  const found = known.find((name) => name === format);
  if (!found) throw new CannotRun(`--format: ${format} is not one of ${known.join(', ')}.`);
  return found;
}
