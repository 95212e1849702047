import { nearest } from '../nearest';

/** All words of a short list, the likeliest first: near in spelling, then begun alike, then in their own order. */
export function likeliest<T extends string>(text: string, words: readonly T[]): readonly T[] {
  const start = text.slice(0, 1).toLowerCase();
  const begun = words.filter((word) => start !== '' && word.startsWith(start));
  return [...new Set([...(nearest(text, words) as T[]), ...begun, ...words])];
}
