import Fraction from 'fraction.js';
import type { Hint } from '../../grammar/tree';
import { later, t } from '../l10n/translate';

/** One hint as it may be written, and what it asks. */
export interface HintWord {
  readonly text: string;
  readonly meaning: string;
  readonly group: 'string' | 'finger' | 'manner' | 'interval' | 'node' | 'position' | 'breaking';
}

/** Every hint that can be written without a number of one's own; `at` and positions stand for their families. */
export const HINT_WORDS: readonly HintWord[] = [
  { text: 'I', meaning: later('On the highest string.'), group: 'string' },
  { text: 'II', meaning: later('On the second string from the top.'), group: 'string' },
  { text: 'III', meaning: later('On the third string from the top.'), group: 'string' },
  { text: 'IV', meaning: later('On the lowest string.'), group: 'string' },
  { text: '1', meaning: later('With the first finger.'), group: 'finger' },
  { text: '2', meaning: later('With the second finger.'), group: 'finger' },
  { text: '3', meaning: later('With the third finger.'), group: 'finger' },
  { text: '4', meaning: later('With the fourth finger.'), group: 'finger' },
  { text: '0', meaning: later('On the open string.'), group: 'finger' },
  { text: 'T', meaning: later('With the thumb (cello).'), group: 'finger' },
  { text: '1-4', meaning: later('Artificial harmonic: the first finger stops, the fourth touches.'), group: 'finger' },
  { text: '1-3', meaning: later('Artificial harmonic: the first finger stops, the third touches.'), group: 'finger' },
  { text: 'open', meaning: later('On an open string.'), group: 'manner' },
  { text: 'stopped', meaning: later('Stopped, not as a harmonic.'), group: 'manner' },
  { text: 'natural', meaning: later('As a natural harmonic: one finger touches the open string.'), group: 'manner' },
  { text: 'artificial', meaning: later('As an artificial harmonic: one finger stops, another touches.'), group: 'manner' },
  {
    text: 'fourth',
    meaning: later('Artificial, touched a fourth above the stop: sounds two octaves above the stopped note.'),
    group: 'interval',
  },
  {
    text: 'fifth',
    meaning: later('Artificial, touched a fifth above the stop: sounds an octave and a fifth above the stopped note.'),
    group: 'interval',
  },
  {
    text: 'third',
    meaning: later('Artificial, touched a major third above the stop: sounds two octaves and a major third above it.'),
    group: 'interval',
  },
  {
    text: 'minor-third',
    meaning: later('Artificial, touched a minor third above the stop: sounds two octaves and a fifth above it.'),
    group: 'interval',
  },
  {
    text: 'sixth',
    meaning: later('Artificial, touched a major sixth above the stop: sounds two octaves and a major third above it.'),
    group: 'interval',
  },
  { text: 'octave', meaning: later('Artificial, touched an octave above the stop: sounds that octave.'), group: 'interval' },
  {
    text: 'at 1/3',
    meaning: later('The node to touch, as a fraction of the sounding string, counted from its nut end.'),
    group: 'node',
  },
  { text: '3rd', meaning: later('The position of the hand.'), group: 'position' },
  { text: '2+2', meaning: later('The bow breaks the chord: the two lower notes, then the two upper ones.'), group: 'breaking' },
  { text: '1+2', meaning: later('The bow breaks the chord: the lowest note, then the two upper ones.'), group: 'breaking' },
  { text: '2+1', meaning: later('The bow breaks the chord: the two lower notes, then the highest.'), group: 'breaking' },
  { text: 'together', meaning: later('The bow takes the three notes of the chord at once.'), group: 'breaking' },
];

/** What one hint asks of the solver. */
export function hintMeaning(hint: Hint, text: string): string {
  switch (hint.kind) {
    case 'fingers':
      return t('Artificial harmonic: {stop} stops, {touch} touches.', {
        stop: fingerName(hint.stop),
        touch: fingerName(hint.touch),
      });
    case 'node':
      return t('Touched at {k}/{n} of the sounding string, counted from its nut end: partial {partial}.', {
        k: hint.k,
        n: hint.n,
        partial: Number(new Fraction(hint.k, hint.n).d),
      });
    case 'position':
      return t('The hand in {place} position.', { place: text });
    default:
      return t(HINT_WORDS.find((word) => word.text === text)?.meaning ?? '');
  }
}

function fingerName(finger: number | string): string {
  return finger === 'T' ? t('the thumb') : t('finger {finger}', { finger });
}
