import { lineBreakOf } from '../../grammar/parse';
import type { Edit } from '../../grammar/tree';
import { type Tried, triedKey, triedWords } from './attempt-words';
import type { PlayerLine } from './player-file';
import { readPlayer } from './read-player';

/**
 * The edit that counts one more attempt. It goes to the last line that tells of the same thing, whose comment stays; where
 * there is none, to a new line after the other attempts.
 */
export function logAttempt(text: string, tried: Tried, clean: boolean): Edit {
  const { lines } = readPlayer(text);
  const key = triedKey(tried);
  const line = lines.findLast(({ attempt }) => attempt && triedKey(attempt.tried) === key);
  return line ? counted(line, clean) : added(text, lines, tried, clean);
}

/** One more attempt on a line of attempts. */
export function counted({ value, attempt, end }: PlayerLine, clean: boolean): Edit {
  const { attempts } = attempt ?? { attempts: { clean: 0, tried: 0 } };
  return { span: value ?? { start: end, end }, text: `${attempts.clean + (clean ? 1 : 0)} of ${attempts.tried + 1}` };
}

function added(text: string, lines: readonly PlayerLine[], tried: Tried, clean: boolean): Edit {
  const written = lines.filter(({ start, end }) => text.slice(start, end).trim() !== '');
  const last = lines.findLast(({ attempt }) => attempt) ?? written.at(-1);
  const line = `${triedWords(tried)}: ${clean ? 1 : 0} of 1`;
  if (!last) return { span: { start: 0, end: 0 }, text: `${line}\n` };
  return { span: { start: last.end, end: last.end }, text: `${lineBreakOf(text)}${line}` };
}
