import type { TouchInterval } from '../../grammar/tree';
import { later, t } from '../l10n/translate';
import { cents } from '../music/temperament';
import { semitonePlace } from './places';

/** A point of division of a sounding string, `k/n` of it from its nut end, where partial `n` stands still. */
export interface Node {
  readonly k: number;
  readonly n: number;
}

export const HIGHEST_PARTIAL = 8;

function coprime(a: number, b: number): boolean {
  return b === 0 ? a === 1 : coprime(b, a % b);
}

/** Every node of partials 2 to 8 that belongs to no lower partial, nut to bridge within each partial. */
export const NODES: readonly Node[] = Array.from({ length: HIGHEST_PARTIAL - 1 }, (_, index) => index + 2).flatMap((n) =>
  Array.from({ length: n - 1 }, (_, index) => ({ k: index + 1, n })).filter(({ k }) => coprime(n, k)),
);

/** Where the touching finger divides the stopped string, by the interval between the two fingers. */
export const ARTIFICIAL_NODES: Readonly<Record<TouchInterval, Node>> = {
  octave: { k: 1, n: 2 },
  fifth: { k: 1, n: 3 },
  fourth: { k: 1, n: 4 },
  third: { k: 1, n: 5 },
  'minor-third': { k: 1, n: 6 },
  sixth: { k: 2, n: 5 },
};

const TOUCH_WORDS: Readonly<Record<string, string>> = {
  octave: later('octave'),
  fifth: later('fifth'),
  fourth: later('fourth'),
  third: later('third'),
  'minor-third': later('minor third'),
  sixth: later('sixth'),
};

/** `minor-third` as the trade says it. */
export function touchWords(interval: string): string {
  return t(TOUCH_WORDS[interval] ?? interval);
}

/** mm from the nut of `k/n` of the string sounding over `length` mm from its nut end `nutEnd` (0, or the stopped place). */
export function touchPlace(nutEnd: number, length: number, k: number, n: number): number {
  return nutEnd + (length * k) / n;
}

/** Cents from the string's own pitch to its partial `n`, ideal string. */
export function partialCents(n: number): number {
  return cents(n);
}

/** The whole number of semitones nearest to partial `n`: 12, 19, 24, 28, 31, 34, 36 for 2 to 8. */
export function partialSemitones(n: number): number {
  return Math.round(partialCents(n) / 100);
}

/**
 * The stopped note whose place a touch at `k/n` feels like: whole semitones above the sounding string, and by how
 * many mm that equal-tempered finger place lies nearer the bridge than the node, on a string of `length` mm (-0.25 for
 * the fifth on 328 mm).
 */
export function feelsLike(k: number, n: number, length = 1): { readonly semitones: number; readonly fingerOffset: number } {
  const semitones = Math.round(cents(n / (n - k)) / 100);
  return { semitones, fingerOffset: semitonePlace(length, semitones) - (length * k) / n };
}
