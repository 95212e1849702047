import type { Style } from '../../grammar/values/value-tree';

/**
 * What a style leans to, nats on top of what habits cost (see learned.ts): a choice by its name, or the first words of several. Assumptions,
 * small enough that only near ties turn: nothing is forbidden, and what the music asks for outright is played in every style.
 */
export const STYLES: Readonly<Record<Style, Readonly<Record<string, number>>>> = {
  // Common practice, no source: who wants to be sure stays low, moves seldom and takes the open string.
  safe: {
    'position: 2nd': 0.3,
    'position: 3rd': 0.3,
    'position: 4th': 0.4,
    'position: 5th': 0.4,
    'position: 6th': 0.4,
    'position: 7th': 0.4,
    'position: 8th': 0.4,
    'position: 10th': 0.4,
    'shiftTime: under': 0.3,
    'shiftTime: longer': 0.3,
    'openLength: stopped': 0.2,
  },
  // Common practice, no source: a melody keeps the colour of its string, and the finger that can vibrate.
  singing: {
    'crossing: 1': 0.4,
    'crossing: 2': 0.4,
    'crossing: 3': 0.4,
    'openLength: under 0.5 s': 0.4,
    'openLength: under 1 s': 0.6,
    'openLength: longer': 0.6,
  },
  // Common practice, no source: who wants to be heard goes up the upper strings.
  brilliant: {
    'stringHeight: II': 0.15,
    'stringHeight: III': 0.3,
    'stringHeight: IV': 0.3,
    'shiftTime: none': 0.3,
  },
};

/** What a style adds to a choice, nats. */
export function leaning(style: Style | undefined, habit: string): number {
  if (!style) return 0;
  const found = Object.entries(STYLES[style]).find(
    ([words]) => habit.startsWith(words) && [undefined, ',', ' ', '-'].includes(habit[words.length]),
  );
  return found?.[1] ?? 0;
}
