import { distance } from 'fastest-levenshtein';

/** Longer words are no slip of the finger; comparing them would only cost time. */
const LONGEST = 24;

/**
 * The candidates a mistyped word may have meant, nearest first: those that a third of its letters away
 * makes equal, letter case aside. Words of one or two letters mean nothing but themselves. Ties keep the
 * order of `candidates`.
 */
export function nearest(word: string, candidates: readonly string[], most = 3): string[] {
  if (word.length > LONGEST) return [];
  const wanted = word.toLowerCase();
  const reach = Math.ceil((wanted.length - 2) / 3);
  return candidates
    .map((text) => ({ text, far: distance(wanted, text.toLowerCase()) }))
    .filter(({ far }) => far <= reach)
    .sort((a, b) => a.far - b.far)
    .slice(0, most)
    .map(({ text }) => text);
}
