import { lineBreakOf } from '../../grammar/parse';
import type { Edit } from '../../grammar/tree';
import type { Attempts } from '../hand/attempts';
import { type Tried, triedKey, triedWords } from './attempt-words';
import type { PlayerLine } from './player-file';
import { readPlayer } from './read-player';

/** The edit that counts one more attempt: see `logAttempts`. */
export function logAttempt(text: string, tried: Tried, clean: boolean): Edit {
  return logAttempts(text, tried, { clean: clean ? 1 : 0, tried: 1 });
}

/**
 * The edit that counts more attempts, or takes back as many where they are negative. It goes to the last line that tells of the
 * same thing, whose comment stays; where there is none, to a new line after the other attempts.
 */
export function logAttempts(text: string, tried: Tried, more: Attempts): Edit {
  const { lines } = readPlayer(text);
  const key = triedKey(tried);
  const line = lines.findLast(({ attempt }) => attempt && triedKey(attempt.tried) === key);
  return line ? counted(line, more) : added(text, lines, tried, more);
}

function counted({ value, attempt, end }: PlayerLine, more: Attempts): Edit {
  const { attempts } = attempt ?? { attempts: { clean: 0, tried: 0 } };
  const [clean, tried] = [Math.max(0, attempts.clean + more.clean), Math.max(0, attempts.tried + more.tried)];
  return { span: value ?? { start: end, end }, text: `${Math.min(clean, tried)} of ${tried}` };
}

function added(text: string, lines: readonly PlayerLine[], tried: Tried, more: Attempts): Edit {
  const written = lines.filter(({ start, end }) => text.slice(start, end).trim() !== '');
  const last = lines.findLast(({ attempt }) => attempt) ?? written.at(-1);
  const line = `${triedWords(tried)}: ${Math.max(0, more.clean)} of ${Math.max(0, more.tried)}`;
  if (!last) return { span: { start: 0, end: 0 }, text: `${line}\n` };
  return { span: { start: last.end, end: last.end }, text: `${lineBreakOf(text)}${line}` };
}
