import { partialSemitones } from '../../instrument/nodes';
import type { Tried } from '../../player/attempt-words';
import { intervalWords } from '../../scene/words';

/** What stands behind a string in a line of attempts, in words. */
export function mannerMeaning({ kind, interval, node }: Pick<Tried, 'kind' | 'interval' | 'node'>): string {
  if (kind === 'stopped') return 'Stopped notes on this string, in tune.';
  if (interval) {
    const article = 'aeio'.includes(interval.charAt(0)) ? 'an' : 'a';
    return `Artificial harmonics with the fingers ${article} ${intervalWords(interval)} apart.`;
  }
  const { k, n } = node ?? { k: 1, n: 2 };
  return `Natural harmonic touched at ${k}/${n} of the string, ${partialSemitones(n)} semitones above the open string.`;
}
