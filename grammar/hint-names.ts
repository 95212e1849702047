import type { Manner, TouchInterval } from './tree';

/** The strings, highest first. */
export const STRING_NAMES = ['I', 'II', 'III', 'IV'] as const;
export const MANNERS: readonly Manner[] = ['open', 'stopped', 'natural', 'artificial'];
export const TOUCH_INTERVALS: readonly TouchInterval[] = ['minor-third', 'third', 'fourth', 'fifth', 'sixth', 'octave'];

/** `1st`, `2nd`, `3rd`, `4th` … as positions are called. */
export function ordinal(position: number): string {
  const tens = position % 100;
  const ending = tens >= 11 && tens <= 13 ? 'th' : (['th', 'st', 'nd', 'rd'][position % 10] ?? 'th');
  return `${position}${ending}`;
}
