import { partialSemitones } from '../../instrument/nodes';
import { t } from '../../l10n/translate';
import type { Tried } from '../../player/attempt-words';
import { intervalWords } from '../../scene/words';

/** What stands behind a string in a line of attempts, in words. */
export function mannerMeaning({ kind, interval, node }: Pick<Tried, 'kind' | 'interval' | 'node'>): string {
  if (kind === 'stopped') return t('Stopped notes on this string, in tune.');
  if (interval) {
    const words = { interval: intervalWords(interval) };
    return 'aeio'.includes(interval.charAt(0))
      ? t('Artificial harmonics with the fingers an {interval} apart.', words)
      : t('Artificial harmonics with the fingers a {interval} apart.', words);
  }
  const { k, n } = node ?? { k: 1, n: 2 };
  return t('Natural harmonic touched at {k}/{n} of the string, {semitones} semitones above the open string.', {
    k,
    n,
    semitones: partialSemitones(n),
  });
}
