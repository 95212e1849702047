import type { TouchInterval } from '../../grammar/tree';
import { later, t } from '../l10n/translate';
import { type Pitch, semitone, transposed } from '../music/pitch';
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

/** White-key steps from a string's own pitch up to its partials 2 to 8, as musicians spell them. */
const PARTIAL_STEPS: Readonly<Record<number, number>> = { 2: 7, 3: 11, 4: 14, 5: 16, 6: 18, 7: 20, 8: 21 };

/** Semitones between the fingers of an artificial harmonic, by the interval's name: 12, 7, 5, 4, 3, 9. */
const TOUCH_SEMITONES = new Map<number, TouchInterval>(
  (Object.entries(ARTIFICIAL_NODES) as [TouchInterval, Node][]).map(([name, { k, n }]) => [feelsLike(k, n).semitones, name]),
);

/** The pitch of a partial (2 to 8) of a string that sounds `fundamental`, as musicians spell it. */
export function partialPitch(fundamental: Pitch, partial: number): Pitch {
  return transposed(fundamental, PARTIAL_STEPS[partial] ?? 0, partialSemitones(partial));
}

/** The pitch of which `pitch` is that partial (2 to 8): the note to stop for an artificial harmonic. */
export function fundamentalPitch(pitch: Pitch, partial: number): Pitch {
  return transposed(pitch, -(PARTIAL_STEPS[partial] ?? 0), -partialSemitones(partial));
}

/** The artificial harmonic that two printed notes make, or `undefined` where their interval gives none. */
export function touchInterval(stop: Pitch, touch: Pitch): TouchInterval | undefined {
  return TOUCH_SEMITONES.get(semitone(touch) - semitone(stop));
}
