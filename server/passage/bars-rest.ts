import type { Span } from '../../grammar/tree';
import { t } from '../l10n/translate';
import type { Meter } from '../music/meter';
import type { RestAtom } from './atom';
import { FILE_ROOM, MOTIF_ROOM } from './flatten';
import type { LineProblem } from './problem';

/** What is wrong with a rest of so many whole bars: no meter says how long they are, or there is no room for them. */
export function wrongBarsRest(
  { span, definition }: RestAtom,
  bars: number,
  meter: Meter | undefined,
  room: number,
): LineProblem | undefined {
  if (meter && bars <= room) return undefined;
  const told = meter ? restTooLong(span, bars, room) : restWithoutMeter(span);
  return definition ? { ...told, origin: definition } : told;
}

function restWithoutMeter(span: Span): LineProblem {
  return restProblem(
    span,
    t(
      'A rest of whole bars needs a meter, which says how long a bar is, and none is set here. Write one on a line before, such as meter: 4/4, or write the rest with a duration.',
    ),
  );
}

function restTooLong(span: Span, bars: number, room: number): LineProblem {
  return restProblem(
    span,
    t(
      'There is no room for {bars} bars of rest here: rests and motifs of one line may stand for {line} bars and notes, those of a file for {file}, and {room} are left. Write a shorter rest.',
      { bars, line: MOTIF_ROOM, file: FILE_ROOM, room },
    ),
  );
}

function restProblem(span: Span, message: string): LineProblem {
  return { code: 'rest-bars', severity: 'error', span, message, fixes: [] };
}
