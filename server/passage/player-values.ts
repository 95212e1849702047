import { nearest } from '../../grammar/nearest';
import { oneOf, quoted } from '../../grammar/problems';
import { CHILD_AGES } from '../hand/constants';
import type { FingerPair } from '../hand/hand';
import { FINGER_PAIRS, HAND_NAMES, type HandChoice } from '../hand/hands';
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
import { type Pitch, parsePitch, pitchName } from '../music/pitch';
import { BOUNDS, likeliest, misread, type Reading } from './reading';

export interface InstrumentChoice {
  readonly family: Family;
  readonly size?: Size;
}

const FAMILIES: readonly Family[] = ['violin', 'viola', 'cello'];

export function readInstrument(text: string): Reading<InstrumentChoice> {
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

export function readTuning(text: string, family: Family): Reading<Tuning> {
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

export function readStandard(text: string): Reading<number> {
  const hz = Number(/^A4\s*=\s*(\d{2,4}(?:\.\d{1,4})?)(?:\s*Hz)?$/i.exec(text)?.[1]);
  const { least, most } = BOUNDS.a4;
  if (hz >= least && hz <= most) return { value: hz };
  const bare = Number(/(?:^|[\s=])(\d{3}(?:\.\d{1,4})?)(?:\s*Hz)?$/i.exec(text)?.[1]);
  const near = bare >= least && bare <= most ? bare : 440;
  return misread(`the pitch standard is written A4 = 440, with a frequency from ${least} to ${most} Hz`, [`A4 = ${near}`]);
}

export function readHand(text: string, family: Family): Reading<HandChoice> {
  const name = HAND_NAMES.find((hand) => hand === text.toLowerCase());
  if (name) return { value: { kind: 'named', name } };
  if (/^child\b/i.test(text)) return readChild(text);
  if (!/\d/.test(text)) {
    return misread(
      `${quoted(text)} is no hand; it can be ${HAND_NAMES.join(', ')}, child with an age, or measured reaches in mm such as 1-2 48, 1-3 72, 1-4 98`,
      likeliest(text, [...HAND_NAMES, 'child 7']),
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

function readChild(text: string): Reading<HandChoice> {
  const age = Number(/^child\s+(\d{1,2}(?:\.\d)?)$/i.exec(text)?.[1]);
  const { least, most } = CHILD_AGES;
  if (age >= least && age <= most) return { value: { kind: 'child', age } };
  return misread(
    `a child's hand is given by an age from ${least} to ${most}, as in child 7; older hands are ${HAND_NAMES.join(', ')}, or measured`,
    age > most ? ['small'] : ['child 7'],
  );
}

/** Pairs of fingers of which the first lies inside the second. */
export const NESTED: readonly (readonly [FingerPair, FingerPair])[] = [
  ['1-2', '1-3'],
  ['1-3', '1-4'],
  ['2-3', '2-4'],
  ['2-3', '1-3'],
  ['2-4', '1-4'],
  ['3-4', '2-4'],
  ['T-1', 'T-2'],
  ['T-2', 'T-3'],
];
