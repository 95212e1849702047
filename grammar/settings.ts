/** What may stand before a colon, for the reader of lines, the checks of values, and completion. */
export interface SettingKey {
  readonly key: string;
  /** One sentence in a player's words. */
  readonly meaning: string;
  readonly example: string;
  /** May it also stand between bars, and hold from there on? */
  readonly betweenBars: boolean;
  /** The words that may open its value, if they are a closed list or part of one. */
  readonly words: readonly string[];
}

export const SETTINGS: readonly SettingKey[] = [
  {
    key: 'title',
    meaning: 'The title printed on the sheet.',
    example: 'Lighthouse studies',
    betweenBars: false,
    words: [],
  },
  {
    key: 'instrument',
    meaning: 'The instrument, with its size or string length if it is not a full one.',
    example: 'violin 3/4',
    betweenBars: false,
    words: ['violin', 'viola', 'cello'],
  },
  {
    key: 'tuning',
    meaning: 'How the open strings are tuned: in pure fifths, in equal temperament, or each string named, lowest first.',
    example: 'G3 D4 A4 E5',
    betweenBars: false,
    words: ['fifths', 'equal'],
  },
  {
    key: 'pitch',
    meaning: 'The pitch of the tuning A in hertz.',
    example: 'A4 = 442',
    betweenBars: false,
    words: ['A4'],
  },
  {
    key: 'hand',
    meaning: 'The size of the hand, or its measured reaches in millimetres.',
    example: 'medium',
    betweenBars: false,
    words: ['small', 'medium', 'large'],
  },
  {
    key: 'player',
    meaning: 'The file of the player: own reaches, instrument, and how attempts went. It lies beside this file or below it.',
    example: 'ines.player',
    betweenBars: false,
    words: [],
  },
  {
    key: 'tempo',
    meaning: 'The beat and how many of it go in a minute.',
    example: '1/4 = 96',
    betweenBars: true,
    words: [],
  },
  { key: 'meter', meaning: 'The length of a bar.', example: '4/4', betweenBars: true, words: [] },
  { key: 'key', meaning: 'The key of the passage.', example: 'D major', betweenBars: false, words: [] },
  {
    key: 'temperament',
    meaning: 'The tuning that pitches are measured against.',
    example: 'just D',
    betweenBars: false,
    words: ['equal', 'pythagorean', 'just'],
  },
  {
    key: 'harmonics',
    meaning: 'Which notes are harmonics: the marked ones, all, or wherever one makes the passage cleaner.',
    example: 'allowed',
    betweenBars: true,
    words: ['marked', 'all', 'allowed'],
  },
];

export const SETTING_KEYS: readonly string[] = SETTINGS.map(({ key }) => key);

const BY_KEY = new Map(SETTINGS.map((setting) => [setting.key, setting]));

/** The setting of that exact spelling, or undefined. */
export function settingKey(key: string): SettingKey | undefined {
  return BY_KEY.get(key);
}
