import { lineBreakOf } from '../../grammar/parse';
import type { Attempts } from '../hand/attempts';
import { readTried, type Tried, triedWords } from './attempt-words';
import { logAttempts } from './log-attempt';

/** What a recording adds to one line of attempts. */
export interface TakeCount {
  readonly tried: Tried;
  readonly attempts: Attempts;
}

/** Begins the comment that tells which recording was counted; what it added follows, so that it can be taken back. */
const MARK = '// recording ';
const BETWEEN = '; ';
const OF = ' of ';

/**
 * A player file with the attempts of a recording counted, and a comment with its fingerprint; undefined where that recording is
 * counted already.
 */
export function logTake(text: string, fingerprint: string, counts: readonly TakeCount[]): string | undefined {
  if (lineWith(text, fingerprint) !== undefined) return undefined;
  const logged = counts.reduce((before, { tried, attempts }) => edited(before, tried, attempts), text);
  const end = lineBreakOf(logged);
  const told = counts.map(({ tried, attempts }) => `${triedWords(tried)} ${attempts.clean}${OF}${attempts.tried}`);
  return `${logged}${logged === '' || logged.endsWith(end) ? '' : end}${MARK}${fingerprint}: ${told.join(BETWEEN)}${end}`;
}

/** The file with a recording taken back; undefined where it is not counted. What was counted by hand since stays. */
export function unlogTake(text: string, fingerprint: string): string | undefined {
  const line = lineWith(text, fingerprint);
  if (line === undefined) return undefined;
  const end = lineBreakOf(text);
  const told = line.slice(MARK.length + fingerprint.length + 2).split(BETWEEN);
  const back = told.reduce(takenBack, text);
  // A line that only this recording was counted on goes with it.
  const empty = new Set(told.map((each) => `${each.slice(0, each.lastIndexOf(' ', each.lastIndexOf(OF) - 1))}: 0 of 0`));
  return back
    .split(end)
    .filter((each) => each !== line && !empty.has(each))
    .join(end);
}

function takenBack(text: string, told: string): string {
  const [before = '', all = ''] = told.split(OF);
  const at = before.lastIndexOf(' ');
  const tried = readTried(before.slice(0, at));
  const [clean, count] = [Number(before.slice(at + 1)), Number(all)];
  if ('faults' in tried || !Number.isInteger(clean) || !Number.isInteger(count)) return text;
  return edited(text, tried.value, { clean: -clean, tried: -count });
}

function edited(text: string, tried: Tried, attempts: Attempts): string {
  const { span, text: written } = logAttempts(text, tried, attempts);
  return text.slice(0, span.start) + written + text.slice(span.end);
}

function lineWith(text: string, fingerprint: string): string | undefined {
  return text.split(lineBreakOf(text)).find((line) => line.startsWith(`${MARK}${fingerprint}:`));
}
