import Fraction from 'fraction.js';
import type { Hint } from '../../grammar/tree';

/** One hint as it may be written, and what it asks. */
export interface HintWord {
  readonly text: string;
  readonly meaning: string;
  readonly group: 'string' | 'finger' | 'manner' | 'interval' | 'node' | 'position' | 'breaking';
}

/** Every hint that can be written without a number of one's own; `at` and positions stand for their families. */
export const HINT_WORDS: readonly HintWord[] = [
  { text: 'I', meaning: 'On the highest string.', group: 'string' },
  { text: 'II', meaning: 'On the second string from the top.', group: 'string' },
  { text: 'III', meaning: 'On the third string from the top.', group: 'string' },
  { text: 'IV', meaning: 'On the lowest string.', group: 'string' },
  { text: '1', meaning: 'With the first finger.', group: 'finger' },
  { text: '2', meaning: 'With the second finger.', group: 'finger' },
  { text: '3', meaning: 'With the third finger.', group: 'finger' },
  { text: '4', meaning: 'With the fourth finger.', group: 'finger' },
  { text: '0', meaning: 'On the open string.', group: 'finger' },
  { text: 'T', meaning: 'With the thumb (cello).', group: 'finger' },
  { text: '1-4', meaning: 'Artificial harmonic: the first finger stops, the fourth touches.', group: 'finger' },
  { text: '1-3', meaning: 'Artificial harmonic: the first finger stops, the third touches.', group: 'finger' },
  { text: 'open', meaning: 'On an open string.', group: 'manner' },
  { text: 'stopped', meaning: 'Stopped, not as a harmonic.', group: 'manner' },
  { text: 'natural', meaning: 'As a natural harmonic: one finger touches the open string.', group: 'manner' },
  { text: 'artificial', meaning: 'As an artificial harmonic: one finger stops, another touches.', group: 'manner' },
  {
    text: 'fourth',
    meaning: 'Artificial, touched a fourth above the stop: sounds two octaves above the stopped note.',
    group: 'interval',
  },
  {
    text: 'fifth',
    meaning: 'Artificial, touched a fifth above the stop: sounds an octave and a fifth above the stopped note.',
    group: 'interval',
  },
  {
    text: 'third',
    meaning: 'Artificial, touched a major third above the stop: sounds two octaves and a major third above it.',
    group: 'interval',
  },
  {
    text: 'minor-third',
    meaning: 'Artificial, touched a minor third above the stop: sounds two octaves and a fifth above it.',
    group: 'interval',
  },
  {
    text: 'sixth',
    meaning: 'Artificial, touched a major sixth above the stop: sounds two octaves and a major third above it.',
    group: 'interval',
  },
  { text: 'octave', meaning: 'Artificial, touched an octave above the stop: sounds that octave.', group: 'interval' },
  {
    text: 'at 1/3',
    meaning: 'The node to touch, as a fraction of the sounding string, counted from its nut end.',
    group: 'node',
  },
  { text: '3rd', meaning: 'The position of the hand.', group: 'position' },
  { text: '2+2', meaning: 'The bow breaks the chord: the two lower notes, then the two upper ones.', group: 'breaking' },
  { text: '1+2', meaning: 'The bow breaks the chord: the lowest note, then the two upper ones.', group: 'breaking' },
  { text: '2+1', meaning: 'The bow breaks the chord: the two lower notes, then the highest.', group: 'breaking' },
  { text: 'together', meaning: 'The bow takes the three notes of the chord at once.', group: 'breaking' },
];

/** What one hint asks of the solver. */
export function hintMeaning(hint: Hint, text: string): string {
  switch (hint.kind) {
    case 'fingers':
      return `Artificial harmonic: ${fingerName(hint.stop)} stops, ${fingerName(hint.touch)} touches.`;
    case 'node':
      return `Touched at ${hint.k}/${hint.n} of the sounding string, counted from its nut end: partial ${new Fraction(hint.k, hint.n).d}.`;
    case 'position':
      return `The hand in ${text} position.`;
    default:
      return HINT_WORDS.find((word) => word.text === text)?.meaning ?? '';
  }
}

function fingerName(finger: number | string): string {
  return finger === 'T' ? 'the thumb' : `finger ${finger}`;
}
