import { nearest } from '../../grammar/nearest';

/** A value that could not be read: why, and the nearest ones that could, best first. */
export interface Misread {
  readonly why: string;
  readonly nearest: readonly string[];
}

export type Reading<T> = { readonly value: T } | { readonly misread: Misread };

/** Bounds of what a file may ask for; outside of them it is a slip of the pen. */
export const BOUNDS = {
  /** Hz of A4: from the low pitch of French baroque wind players to the highest orchestral pitches (assumption). */
  a4: { least: 380, most: 480 },
  /** Beats a minute. */
  bpm: { least: 5, most: 600 },
  /** mm between two fingers of one hand. */
  reach: { least: 10, most: 300 },
  meterCount: { least: 1, most: 64 },
} as const;

/** A value that can't be read, with at most three that could in its place. */
export function misread<T>(why: string, suggestions: readonly string[]): Reading<T> {
  return { misread: { why, nearest: [...new Set(suggestions)].slice(0, 3) } };
}

/** All words of a short list, the likeliest first: near in spelling, then begun alike, then in their own order. */
export function likeliest<T extends string>(text: string, words: readonly T[]): readonly string[] {
  const start = text.slice(0, 1).toLowerCase();
  return [...nearest(text, words), ...words.filter((word) => start !== '' && word.startsWith(start)), ...words];
}
