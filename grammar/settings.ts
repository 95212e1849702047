import { later } from '../server/l10n/translate';
import type { ValueKind } from './values/value-tree';

/** What may stand before a colon, for the reader of lines, the checks of values, and completion. */
export interface Key {
  readonly key: string;
  /** How its value is written. */
  readonly value: ValueKind;
  /** One sentence in a player's words. */
  readonly meaning: string;
  readonly example: string;
}

export interface SettingKey extends Key {
  /** May it also stand between bars, and hold from there on? */
  readonly betweenBars: boolean;
}

export const SETTINGS: readonly SettingKey[] = [
  {
    key: 'title',
    value: 'text',
    meaning: later('The title printed on the sheet.'),
    example: later('Lighthouse studies'),
    betweenBars: false,
  },
  {
    key: 'instrument',
    value: 'instrument',
    meaning: later('The instrument, with its size or string length if it is not full-size.'),
    example: 'violin 3/4',
    betweenBars: false,
  },
  {
    key: 'tuning',
    value: 'tuning',
    meaning: later('How the open strings are tuned: in pure fifths, in equal temperament, or each string named, lowest first.'),
    example: 'G3 D4 A4 E5',
    betweenBars: false,
  },
  {
    key: 'pitch',
    value: 'standard',
    meaning: later('The pitch of the tuning A in hertz.'),
    example: 'A4 = 442',
    betweenBars: false,
  },
  {
    key: 'hand',
    value: 'hand',
    meaning: later('The size of the hand, or its measured reaches in millimetres.'),
    example: '1-2 48, 1-3 72, 1-4 98',
    betweenBars: false,
  },
  {
    key: 'level',
    value: 'level',
    meaning: later('How reliably and quickly the player plays; chances and safe tempos depend on it.'),
    example: 'student',
    betweenBars: false,
  },
  {
    key: 'style',
    value: 'style',
    meaning: later(
      'What the fingering leans to: safe stays low, singing stays on a string, brilliant goes up the upper strings.',
    ),
    example: 'singing',
    betweenBars: false,
  },
  {
    key: 'player',
    value: 'path',
    meaning: later('The player’s file: reaches, instrument and a record of attempts. It must be in this folder or below it.'),
    example: 'ines.player',
    betweenBars: false,
  },
  {
    key: 'tempo',
    value: 'tempo',
    meaning: later('The beat, and how many of them there are in a minute.'),
    example: '1/4 = 96',
    betweenBars: true,
  },
  { key: 'meter', value: 'meter', meaning: later('The length of a bar.'), example: '4/4', betweenBars: true },
  { key: 'key', value: 'key', meaning: later('The key of the passage.'), example: 'D major', betweenBars: true },
  {
    key: 'clef',
    value: 'clef',
    meaning: later(
      'The clef from here on; automatic, as without it, takes the one with the fewest ledger lines for the passage.',
    ),
    example: 'tenor',
    betweenBars: true,
  },
  {
    key: 'mark',
    value: 'text',
    meaning: later('A rehearsal mark, printed over the next bar.'),
    example: 'A',
    betweenBars: true,
  },
  {
    key: 'temperament',
    value: 'temperament',
    meaning: later('The tuning that pitches are measured against.'),
    example: 'just D',
    betweenBars: false,
  },
  {
    key: 'harmonics',
    value: 'harmonics',
    meaning: later('Which notes are harmonics: the marked ones, all, or wherever one makes the passage cleaner.'),
    example: 'allowed',
    betweenBars: true,
  },
  {
    key: 'keep',
    value: 'keep',
    meaning: later('What every note from here on must keep to: a string, a position, no open strings; or free, to end it.'),
    example: 'II',
    betweenBars: true,
  },
];

export const SETTING_KEYS: readonly string[] = SETTINGS.map(({ key }) => key);

const BY_KEY = new Map(SETTINGS.map((setting) => [setting.key, setting]));

/** The setting of that exact spelling, or undefined. */
export function settingKey(key: string): SettingKey | undefined {
  return BY_KEY.get(key);
}
