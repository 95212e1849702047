import { nearest } from '../../grammar/nearest';
import { oneOf, quoted } from '../../grammar/problems';
import type { FingerPair } from '../hand/hand';
import { FINGER_PAIRS, HAND_NAMES, type HandName } from '../hand/hands';
import {
  canTune,
  knownSizes,
  LENGTHS,
  parseSize,
  RETUNING,
  type Size,
  sizeLength,
  type Tuning,
  usualTuning,
} from '../instrument/build';
import type { Family } from '../instrument/instrument';
import { parseDuration } from '../music/duration';
import type { Key } from '../music/interval';
import { type Pitch, parsePitch, pitchName } from '../music/pitch';
import type { Temperament } from '../music/temperament';
import type { Meter, Tempo } from './passage';

export type HarmonicsMode = 'marked' | 'all' | 'allowed';

/** A hand as the file says it: by name, or by the most that each measured pair of fingers reaches, mm. */
export type HandChoice =
  | { readonly kind: 'named'; readonly name: HandName }
  | { readonly kind: 'measured'; readonly most: Readonly<Partial<Record<FingerPair, number>>> };

export interface InstrumentChoice {
  readonly family: Family;
  readonly size?: Size;
}

/** What each setting's value is once read. */
export interface SettingValues {
  readonly title: string;
  readonly instrument: InstrumentChoice;
  readonly tuning: Tuning;
  /** Hz of A4. */
  readonly pitch: number;
  readonly hand: HandChoice;
  readonly tempo: Tempo;
  readonly meter: Meter;
  readonly key: Key;
  readonly temperament: Temperament;
  readonly harmonics: HarmonicsMode;
}

export type SettingKey = keyof SettingValues;

/** A value that could not be read: why, and the nearest ones that could, best first. */
export interface Misread {
  readonly why: string;
  readonly nearest: readonly string[];
}

export type Reading<T> = { readonly value: T } | { readonly misread: Misread };

/** Bounds of what a file may ask for; outside of them it is a slip of the pen. */
export const BOUNDS = {
  /** Hz of A4: from the low pitch of French baroque wind players to the highest orchestral pitches (assumption). */
  a4: { least: 380, most: 480 },
  /** Beats a minute. */
  bpm: { least: 5, most: 600 },
  /** mm between two fingers of one hand. */
  reach: { least: 10, most: 300 },
  meterCount: { least: 1, most: 64 },
} as const;

const FAMILIES: readonly Family[] = ['violin', 'viola', 'cello'];
const HARMONICS: readonly HarmonicsMode[] = ['marked', 'all', 'allowed'];
const METER_UNITS = [1, 2, 4, 8, 16, 32, 64];

/** How each setting's value is read. `family` is the instrument it is read for. */
export const READERS: { readonly [K in SettingKey]: (text: string, family: Family) => Reading<SettingValues[K]> } = {
  title: (text) => ({ value: text }),
  instrument: readInstrument,
  tuning: readTuning,
  pitch: readStandard,
  hand: readHand,
  tempo: readTempo,
  meter: readMeter,
  key: readKey,
  temperament: readTemperament,
  harmonics: readHarmonics,
};

function misread<T>(why: string, suggestions: readonly string[]): Reading<T> {
  return { misread: { why, nearest: [...new Set(suggestions)].slice(0, 3) } };
}

/** All words of a short list, the likeliest first: near in spelling, then begun alike, then in their own order. */
function likeliest<T extends string>(text: string, words: readonly T[]): readonly string[] {
  const start = text.slice(0, 1).toLowerCase();
  return [...nearest(text, words), ...words.filter((word) => start !== '' && word.startsWith(start)), ...words];
}

function readHarmonics(text: string): Reading<HarmonicsMode> {
  const value = HARMONICS.find((word) => word === text.toLowerCase());
  if (value) return { value };
  return misread(
    `${quoted(text)} doesn't say which notes are harmonics; it can be ${oneOf(HARMONICS)}`,
    likeliest(text, HARMONICS),
  );
}

function readInstrument(text: string): Reading<InstrumentChoice> {
  const [word = '', ...rest] = text.split(/\s+/);
  const family = FAMILIES.find((name) => name === word.toLowerCase());
  const sizeText = rest.join(' ');
  if (!family) {
    const near = likeliest(word, FAMILIES);
    return misread(
      `${quoted(word)} is no instrument Passagework knows; it can be ${oneOf(FAMILIES)}, with a size if need be`,
      near.map((name) => (sizeText ? `${name} ${sizeText}` : name)),
    );
  }
  if (!sizeText) return { value: { family } };
  const size = parseSize(sizeText);
  if (size && sizeLength(family, size) !== undefined) return { value: { family, size } };
  const sizes = knownSizes(family);
  const { least, most } = LENGTHS[family];
  return misread(
    `a ${family} doesn't come in ${quoted(sizeText)}; give a size (${sizes.join(', ')}) or a string length from ${least}mm to ${most}mm`,
    likeliest(sizeText, sizes).map((name) => `${family} ${name}`),
  );
}

function readTuning(text: string, family: Family): Reading<Tuning> {
  const word = text.toLowerCase();
  if (word === 'fifths' || word === 'equal') return { value: word };
  const usual = usualTuning(family).map(pitchName).join(' ');
  const parts = text.split(/[\s,]+/).filter(Boolean);
  const pitches = parts.map(parsePitch);
  const wrong = pitches.indexOf(undefined);
  if (wrong >= 0) {
    return misread(
      `${quoted(parts[wrong] ?? '')} is no open string; write the four strings lowest first, as in ${usual}, or fifths or equal`,
      [...nearest(text, ['fifths', 'equal']), usual],
    );
  }
  const tuning = pitches as readonly Pitch[];
  if (tuning.length !== 4) {
    return misread(`a ${family} has four strings and ${quoted(text)} tunes ${tuning.length}; write all four, lowest first`, [
      usual,
    ]);
  }
  if (canTune(family, tuning)) return { value: tuning };
  const reversed = [...tuning].reverse();
  return misread(
    `the strings of a ${family} can't be tuned to ${quoted(text)}: each goes at most ${RETUNING} semitones from its usual ${usual}`,
    canTune(family, reversed) ? [reversed.map(pitchName).join(' '), usual] : [usual],
  );
}

function readStandard(text: string): Reading<number> {
  const hz = Number(/^A4\s*=\s*(\d{2,4}(?:\.\d{1,4})?)(?:\s*Hz)?$/i.exec(text)?.[1]);
  const { least, most } = BOUNDS.a4;
  if (hz >= least && hz <= most) return { value: hz };
  const bare = Number(/(?:^|[\s=])(\d{3}(?:\.\d{1,4})?)(?:\s*Hz)?$/i.exec(text)?.[1]);
  const near = bare >= least && bare <= most ? bare : 440;
  return misread(`the pitch standard is written A4 = 440, with a frequency from ${least} to ${most} Hz`, [`A4 = ${near}`]);
}

function readHand(text: string, family: Family): Reading<HandChoice> {
  const name = HAND_NAMES.find((hand) => hand === text.toLowerCase());
  if (name) return { value: { kind: 'named', name } };
  if (!/\d/.test(text)) {
    return misread(
      `${quoted(text)} is no hand; it can be ${HAND_NAMES.join(', ')}, or measured reaches in mm such as 1-2 48, 1-3 72, 1-4 98`,
      likeliest(text, HAND_NAMES),
    );
  }
  const most: Partial<Record<FingerPair, number>> = {};
  const { least, most: furthest } = BOUNDS.reach;
  for (const part of text.split(',').map((piece) => piece.trim())) {
    const [, pair = '', mm = ''] = /^(\S+)\s+(\d+(?:\.\d+)?)(?:\s*mm)?$/.exec(part) ?? [];
    const fingers = FINGER_PAIRS.find((known) => known === pair.toUpperCase());
    if (!fingers) {
      return misread(`${quoted(part)} is no reach; write two fingers and mm, as in 1-4 98, parted by commas`, []);
    }
    if (fingers.startsWith('T') && family !== 'cello') {
      return misread(`${quoted(part)} measures the thumb, which stays behind the neck of a ${family}; leave it out`, []);
    }
    if (!(Number(mm) >= least && Number(mm) <= furthest)) {
      return misread(`${quoted(part)} is no reach of a hand: it must lie from ${least} to ${furthest} mm`, []);
    }
    most[fingers] = Number(mm);
  }
  for (const [inner, outer] of NESTED) {
    const [a, b] = [most[inner], most[outer]];
    if (a !== undefined && b !== undefined && a > b) {
      return misread(`fingers ${inner} can't reach further (${a} mm) than fingers ${outer} (${b} mm); measure them again`, []);
    }
  }
  return { value: { kind: 'measured', most } };
}

/** Pairs of fingers of which the first lies inside the second. */
const NESTED: readonly (readonly [FingerPair, FingerPair])[] = [
  ['1-2', '1-3'],
  ['1-3', '1-4'],
  ['2-3', '2-4'],
  ['2-3', '1-3'],
  ['2-4', '1-4'],
  ['3-4', '2-4'],
  ['T-1', 'T-2'],
  ['T-2', 'T-3'],
];

function readTempo(text: string): Reading<Tempo> {
  const [, beatText = '', bpmText = ''] = /^(\S+)\s*=\s*(\d{1,4}(?:\.\d{1,3})?)$/.exec(text) ?? [];
  const beat = parseDuration(beatText);
  const { least, most } = BOUNDS.bpm;
  const bpm = Number(bpmText);
  if (beat && bpm >= least && bpm <= most) return { value: { beat, bpm } };
  const near = Math.min(most, Math.max(least, Number(/(\d{1,4}(?:\.\d{1,3})?)\s*$/.exec(text)?.[1] ?? 96)));
  return misread(`a tempo is a note value and its beats a minute (${least} to ${most}), as in 1/4 = 96`, [
    `${beat ? beatText : '1/4'} = ${near}`,
  ]);
}

function readMeter(text: string): Reading<Meter> {
  const [, count = '', unit = ''] = /^(\d{1,3})\s*\/\s*(\d{1,3})$/.exec(text) ?? [];
  const { least, most } = BOUNDS.meterCount;
  const beats = Number(count);
  if (count && beats >= least && beats <= most && METER_UNITS.includes(Number(unit))) {
    return { value: { count: beats, unit: Number(unit) } };
  }
  const first = Number(/^\d{1,2}/.exec(text)?.[0] ?? 4);
  const wanted = Number(unit || 4);
  const nearUnit = METER_UNITS.reduce((best, next) => (Math.abs(next - wanted) < Math.abs(best - wanted) ? next : best));
  return misread(`a meter is written as beats and note value, as in 4/4 or 6/8`, [
    `${Math.min(most, Math.max(least, first))}/${nearUnit}`,
  ]);
}

function readTonic(text: string): Key['tonic'] | undefined {
  const pitch = parsePitch(`${text.slice(0, 1).toUpperCase()}${text.slice(1)}4`);
  return pitch && { letter: pitch.letter, alter: pitch.alter };
}

function readKey(text: string): Reading<Key> {
  const [tonicText = '', modeText = ''] = text.split(/\s+/);
  const tonic = readTonic(tonicText);
  const mode = (['major', 'minor'] as const).find((word) => word === modeText.toLowerCase());
  if (tonic && mode && text.split(/\s+/).length === 2) return { value: { tonic, mode } };
  const name = tonic ? tonicText : 'D';
  return misread(
    `a key is a note name and major or minor, as in D major or F# minor`,
    likeliest(modeText, ['major', 'minor']).map((word) => `${name} ${word}`),
  );
}

function readTemperament(text: string): Reading<Temperament> {
  const word = text.toLowerCase();
  if (word === 'equal' || word === 'pythagorean') return { value: { kind: word } };
  const [first = '', tonicText] = text.split(/\s+/);
  const tonic = tonicText === undefined ? undefined : readTonic(tonicText);
  if (first.toLowerCase() === 'just' && tonic && text.split(/\s+/).length === 2) return { value: { kind: 'just', tonic } };
  return misread(
    `${quoted(text)} is no temperament; it can be equal, pythagorean, or just with its keynote, as in just D`,
    first.toLowerCase() === 'just' ? ['just D'] : likeliest(text, ['equal', 'pythagorean', 'just D']),
  );
}
