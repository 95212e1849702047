import type { PlayerKey } from '../../grammar/player-keys';
import type { PlayerCode, Told } from '../../grammar/problems';
import type { Fix, Span, Word } from '../../grammar/tree';
import type { Attempts, Experience } from '../hand/attempts';
import type { Family } from '../instrument/instrument';
import type { Tried } from './attempt-words';
import type { PlayerChoice } from './player-choice';
import type { PlayerValues } from './player-values';

/** Something wrong in a player file. */
export interface PlayerProblem extends Told {
  readonly code: PlayerCode;
  readonly severity: 'error' | 'warning';
  /** Best first. */
  readonly fixes: readonly Fix[];
}

/** One line of a player file, without its line break; places are offsets in the file. */
export interface PlayerLine extends Span {
  /** Before the colon; absent on blank lines, comments, and lines that can't be read. */
  readonly key?: Word;
  readonly value?: Word;
  /** The key in its usual spelling, where player files have it. */
  readonly name?: PlayerKey;
  /** On a line of attempts that could be read. */
  readonly attempt?: { readonly tried: Tried; readonly attempts: Attempts };
}

/** A player file as read. Its text stands as written: nothing is lost by reading it, and changes are edits of that text. */
export interface PlayerFile {
  readonly text: string;
  readonly lines: readonly PlayerLine[];
  /** What could be read; of a key written twice the last. */
  readonly values: Partial<PlayerValues>;
  /** Attempts at one thing on several lines added up. */
  readonly experience: Experience;
  readonly problems: readonly PlayerProblem[];
}

/** The kind of instrument that a player's lines are read for. */
export function playerFamily({ instrument }: PlayerFile['values']): Family {
  return instrument?.family ?? 'violin';
}

/** What a passage is read with when this player plays it. `fallback` names a player whose file gives no name. */
export function choiceOf({ values, experience }: PlayerFile, fallback: string): PlayerChoice {
  const { instrument, hand, comfort, level, style, 'in tune': inTune, landing: still, spacing } = values;
  const accuracy = {
    ...(inTune !== undefined && { inTune }),
    ...(still !== undefined && { still }),
    ...(spacing !== undefined && { spacing }),
  };
  return {
    name: values.name || fallback,
    ...(instrument && { instrument }),
    ...(hand && { hand }),
    ...(comfort && { comfort }),
    ...(level && { level }),
    ...(style && { style }),
    ...(Object.keys(accuracy).length > 0 && { accuracy }),
    ...(Object.keys(experience).length > 0 && { experience }),
  };
}
