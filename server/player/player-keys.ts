import { quoted } from '../../grammar/problems';
import type { HandChoice } from '../hand/hands';
import type { Comfort } from '../hand/own-hand';
import type { Family } from '../instrument/instrument';
import { type InstrumentChoice, readHand, readInstrument } from '../passage/player-values';
import { misread, type Reading } from '../passage/reading';

/** What the lines of a player file say once read, attempts apart. */
export interface PlayerValues {
  readonly name: string;
  readonly instrument: InstrumentChoice;
  /** In the player's own words. */
  readonly strings: string;
  readonly hand: HandChoice;
  readonly comfort: Comfort;
  /** Cents. */
  readonly 'in tune': number;
  /** mm, standard deviation. */
  readonly landing: number;
  /** mm, standard deviation. */
  readonly spacing: number;
}

export type PlayerKey = keyof PlayerValues;

interface KeyRow<K extends PlayerKey> {
  /** One sentence in a player's words. */
  readonly meaning: string;
  readonly example: string;
  /** The words that may open its value, if there is a list of them. */
  readonly words: readonly string[];
  read(text: string, family: Family): Reading<PlayerValues[K]>;
}

/** Shares of a reach that somebody may call comfortable, per cent. Assumption. */
const COMFORT = { least: 30, most: 100 } as const;
/** Cents either side within which a stopped note passes: from a tuner's accuracy to a quarter tone. Assumption. */
const IN_TUNE = { least: 2, most: 50 } as const;
/** mm of a landing error: below, nobody can measure it; above, no note would be found. Assumption. */
const LANDING = { least: 0.2, most: 10 } as const;

/** The keys of a player file, in the order that one would write them. */
export const PLAYER_KEYS: { readonly [K in PlayerKey]: KeyRow<K> } = {
  name: { meaning: 'What the player is called.', example: 'Ines', words: [], read: (text) => ({ value: text }) },
  instrument: {
    meaning: 'The own instrument, with its size or string length if it is not a full one.',
    example: 'violin 3/4',
    words: ['violin', 'viola', 'cello'],
    read: readInstrument,
  },
  strings: {
    meaning: 'The strings on it, in any words: attempts are worth most on the strings that they were made on.',
    example: 'gut G, steel E, new in March',
    words: [],
    read: (text) => ({ value: text }),
  },
  hand: {
    meaning: 'The size of the hand, or the most that its fingers reach in millimetres. Measure without forcing: pain means stop.',
    example: '1-2 48, 1-3 72, 1-4 98',
    words: ['small', 'medium', 'large'],
    read: readHand,
  },
  comfort: {
    meaning: 'What stays comfortable: a share of the most that the hand reaches, or millimetres for pairs of fingers.',
    example: '70 %',
    words: [],
    read: readComfort,
  },
  'in tune': {
    meaning: 'How far a stopped note may be off and still pass, in cents either side.',
    example: '12 cents',
    words: [],
    read: (text) => readAmount(text, 'cents', IN_TUNE, '12 cents'),
  },
  landing: {
    meaning: 'How far a finger of a hand at rest lands off its place as a rule, in millimetres (standard deviation).',
    example: '1 mm',
    words: [],
    read: (text) => readAmount(text, 'mm', LANDING, '1 mm'),
  },
  spacing: {
    meaning: 'How far the space between two fingers set down together is off as a rule, in millimetres (standard deviation).',
    example: '1 mm',
    words: [],
    read: (text) => readAmount(text, 'mm', LANDING, '1 mm'),
  },
};

export const PLAYER_KEY_NAMES = Object.keys(PLAYER_KEYS) as readonly PlayerKey[];

export function isPlayerKey(text: string): text is PlayerKey {
  return Object.hasOwn(PLAYER_KEYS, text);
}

function readComfort(text: string, family: Family): Reading<Comfort> {
  const [, number] = /^(\d{1,3}(?:\.\d+)?)\s*%$/.exec(text) ?? [];
  if (number !== undefined) {
    const percent = Number(number);
    if (percent >= COMFORT.least && percent <= COMFORT.most) return { value: { kind: 'share', share: percent / 100 } };
    return misread(
      `${quoted(text)} is no share of a reach that could be comfortable; write ${COMFORT.least} % to ${COMFORT.most} %`,
      ['70 %'],
    );
  }
  const measured = readHand(text, family);
  if ('value' in measured && measured.value.kind === 'measured') return { value: { kind: 'measured', mm: measured.value.most } };
  if ('misread' in measured && /^[1-4T]-[1-4]\s/.test(text)) return measured;
  const bare = /^\d{2,3}$/.test(text) ? [`${text} %`] : [];
  return misread(
    `${quoted(text)} is neither a share of the most that the hand reaches, as in 70 %, nor mm for pairs of fingers, as in 1-4 80`,
    [...bare, '70 %'],
  );
}

function readAmount(
  text: string,
  unit: 'cents' | 'mm',
  { least, most }: { readonly least: number; readonly most: number },
  example: string,
): Reading<number> {
  const [, number = '', written] = /^(\d{1,3}(?:\.\d{1,3})?)\s*([a-z]*)$/i.exec(text) ?? [];
  const amount = Number(number);
  const near = number !== '' && amount >= least && amount <= most ? [`${number} ${unit}`] : [];
  if (near.length > 0 && (written === unit || (unit === 'cents' && written === 'cent'))) return { value: amount };
  return misread(`${quoted(text)} is not a number of ${unit} from ${least} to ${most}, as in ${example}`, [...near, example]);
}
