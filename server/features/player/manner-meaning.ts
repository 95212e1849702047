import { partialSemitones } from '../../instrument/nodes';
import { intervalWords } from '../../scene/words';

/** What the words after a string in a line of attempts stand for. */
export function mannerMeaning(word: string): string {
  const [, k, n] = /^(\d+)\/(\d+)$/.exec(word) ?? [];
  if (k !== undefined && n !== undefined)
    return `Natural harmonic touched at ${k}/${n} of the string, ${partialSemitones(Number(n))} semitones above the open string.`;
  return word === 'stopped'
    ? 'Stopped notes on this string, in tune.'
    : `Artificial harmonics with the fingers ${/^[aeio]/.test(word) ? 'an' : 'a'} ${intervalWords(word)} apart.`;
}
