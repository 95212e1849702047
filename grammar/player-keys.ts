import { later } from '../server/l10n/translate';
import type { Key } from './settings';

/** The keys of a player file, in the order that one would write them. */
export const PLAYER_KEYS = [
  { key: 'name', value: 'text', meaning: later('The player’s name.'), example: 'Ines' },
  {
    key: 'instrument',
    value: 'instrument',
    meaning: later('The player’s own instrument, with its size or string length if it is not full-size.'),
    example: 'violin 3/4',
  },
  {
    key: 'strings',
    value: 'text',
    meaning: later('The strings on it, in your own words: attempts count most on the strings they were made on.'),
    example: later('gut G, steel E, new in March'),
  },
  {
    key: 'hand',
    value: 'hand',
    meaning: later('The size of the hand, or its widest reaches in millimetres. Measure without forcing: pain means stop.'),
    example: '1-2 48, 1-3 72, 1-4 98',
  },
  {
    key: 'comfort',
    value: 'comfort',
    meaning: later('What stays comfortable: a share of the most that the hand reaches, or millimetres for pairs of fingers.'),
    example: '70 %',
  },
  {
    key: 'level',
    value: 'level',
    meaning: later('How reliably and quickly the player plays, if nothing more exact is known.'),
    example: 'student',
  },
  {
    key: 'style',
    value: 'style',
    meaning: later('What this player leans to: safe stays low, singing stays on a string, brilliant goes up the upper strings.'),
    example: 'singing',
  },
  {
    key: 'in tune',
    value: 'cents',
    meaning: later(
      'How far a long stopped note may be out of tune and still pass, in cents either side; short ones may be off further.',
    ),
    example: '12 cents',
  },
  {
    key: 'landing',
    value: 'millimetres',
    meaning: later(
      'How far off its place the first finger usually lands in first position, in millimetres (standard deviation).',
    ),
    example: '1 mm',
  },
  {
    key: 'spacing',
    value: 'millimetres',
    meaning: later(
      'How far off the space between two fingers set down together usually is, in millimetres (standard deviation).',
    ),
    example: '1 mm',
  },
] as const satisfies readonly Key[];

export type PlayerKey = (typeof PLAYER_KEYS)[number]['key'];

export const PLAYER_KEY_NAMES: readonly PlayerKey[] = PLAYER_KEYS.map(({ key }) => key);

/** The key that these words name, whatever their spacing and capitals. */
export function playerKey(text: string): (typeof PLAYER_KEYS)[number] | undefined {
  const words = text.toLowerCase().replace(/\s+/g, ' ');
  return PLAYER_KEYS.find(({ key }) => key === words);
}
