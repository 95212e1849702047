import { STRING_NAMES } from '../../grammar/hint-names';
import type { StringNumber } from '../../grammar/tree';
import { type Pitch, parsePitch, semitone } from '../music/pitch';
import { FIFTH_EXCESS, fifthsFromA } from '../music/temperament';
import { FAMILIES, type StringData } from './constants';
import type { Family, Instrument, InstrumentString, StringName } from './instrument';

/** A size by its trade name (`3/4`, `16in`) or by string length, nut to bridge, in mm. */
export type Size = { readonly name: string } | { readonly mm: number };

/** `fifths` is pure fifths from A; a list is a scordatura, lowest string first. */
export type Tuning = 'fifths' | 'equal' | readonly Pitch[];

export interface InstrumentSpec {
  readonly family: Family;
  /** The full size unless set. */
  readonly size?: Size;
  readonly tuning: Tuning;
  /** Hz. */
  readonly a4: number;
}

/** String lengths that a bowed instrument of the family can have, mm. */
export const LENGTHS: Readonly<Record<Family, { readonly least: number; readonly most: number }>> = {
  violin: { least: 150, most: 350 },
  viola: { least: 280, most: 450 },
  cello: { least: 400, most: 760 },
};

/** How far a string may be retuned from its usual pitch, semitones. */
export const RETUNING = 7;

/** The sizes that have a name, largest first. */
export function knownSizes(family: Family): readonly string[] {
  return Object.keys(FAMILIES[family].sizes);
}

/** The trade name of a size; for a measured string length that of the nearest size. The full size where none is given. */
export function namedSize(family: Family, size?: Size): string {
  const { sizes, fullSize } = FAMILIES[family];
  if (!size) return fullSize;
  if ('name' in size) return size.name;
  const off = (name: string) => Math.abs((sizes[name] as number) - size.mm);
  return knownSizes(family).reduce((best, name) => (off(name) < off(best) ? name : best));
}

/** The usual open strings of a family, lowest first, as `tuning` takes them. */
export function usualTuning(family: Family): readonly Pitch[] {
  return FAMILIES[family].pitches.map((name) => parsePitch(name) as Pitch).reverse();
}

/** Nut to bridge in mm, or `undefined` for a size the family doesn't come in. */
export function sizeLength(family: Family, size?: Size): number | undefined {
  const { sizes, fullSize } = FAMILIES[family];
  if (size && 'mm' in size) {
    const { least, most } = LENGTHS[family];
    return size.mm >= least && size.mm <= most ? size.mm : undefined;
  }
  const name = size?.name ?? fullSize;
  return Object.hasOwn(sizes, name) ? sizes[name] : undefined;
}

/** True when four strings can be tuned so, each within `RETUNING` semitones of its usual pitch. */
export function canTune(family: Family, tuning: readonly Pitch[]): boolean {
  const usual = usualTuning(family);
  return (
    tuning.length === usual.length &&
    tuning.every((pitch, index) => Math.abs(semitone(pitch) - semitone(usual[index] as Pitch)) <= RETUNING)
  );
}

/**
 * An instrument with its strings tuned. Throws a `RangeError` for a size the family doesn't come in, a
 * tuning its strings can't take, or a pitch standard out of reason; check with `sizeLength` and `canTune` first.
 */
export function buildInstrument(spec: InstrumentSpec): Instrument {
  const { family, size, tuning, a4 } = spec;
  const data = FAMILIES[family];
  const length = sizeLength(family, size);
  if (length === undefined) throw new RangeError(`no ${family} of this size`);
  if (!(a4 > 0 && Number.isFinite(a4))) throw new RangeError('A4 must be a frequency above 0 Hz');
  const written = typeof tuning === 'string' ? usualTuning(family) : tuning;
  if (!canTune(family, written)) throw new RangeError(`a ${family} can't be tuned so`);
  const pitches = [...written].reverse();
  const offsets =
    tuning === 'equal'
      ? pitches.map(() => 0)
      : pureOffsets(
          pitches,
          data.pitches.findIndex((name) => name.startsWith('A')),
        );
  const fullLength = data.sizes[data.fullSize] as number;
  return {
    family,
    name: instrumentName(family, size),
    length,
    strings: pitches.map((pitch, index) => {
      const hz = a4 * 2 ** ((semitone(pitch) - 69) / 12 + (offsets[index] as number) / 1200);
      return stringAt(index, pitch, hz, length, fullLength, data.strings[index] as StringData);
    }),
    spacing: { nut: data.spread.nut / (pitches.length - 1), bridge: data.spread.bridge / (pitches.length - 1) },
    height: data.height,
    fingerboard: length * data.fingerboard,
    thumb: data.thumb,
  };
}

/**
 * Cents from equal temperament of strings tuned by ear: starting from the A string (or, where none is tuned to A, from
 * the string usually so tuned), every string that makes a fifth, fourth, octave or unison with one already tuned is set pure to it,
 * and the rest, for which there is no pure interval to tune by, are set equal.
 */
function pureOffsets(pitches: readonly Pitch[], usualA: number): number[] {
  const fifths = pitches.map(fifthsFromA);
  const a = fifths.indexOf(0);
  const first = a >= 0 ? a : usualA;
  const tuned = new Set([first]);
  for (let before = 0; before < tuned.size; ) {
    before = tuned.size;
    fifths.forEach((fifth, index) => {
      if ([...tuned].some((other) => Math.abs((fifths[other] as number) - fifth) <= 1)) tuned.add(index);
    });
  }
  return fifths.map((fifth, index) => (tuned.has(index) ? FIFTH_EXCESS * (fifth - (fifths[first] as number)) : 0));
}

/**
 * The string at this length and pitch. Sets for other sizes are assumed to be made so that tension goes with length
 * (density inversely, core the same); for a given string tension grows as the square of the frequency, T = 4 L^2 f^2 mu,
 * and stiffness is B = pi^3 E r^4 / (4 T L^2).
 */
function stringAt(
  index: number,
  pitch: Pitch,
  hz: number,
  length: number,
  fullLength: number,
  data: StringData,
): InstrumentString {
  const density = data.density * (fullLength / length);
  const metres = length / 1000;
  const radius = data.radius / 1000;
  const tension = 4 * (metres * hz) ** 2 * (density / 1000);
  return {
    number: (index + 1) as StringNumber,
    name: STRING_NAMES[index] as StringName,
    pitch,
    hz,
    inharmonicity: (Math.PI ** 3 * data.modulus * 1e9 * radius ** 4) / (4 * tension * metres ** 2),
    tension,
    density,
    axialStiffness: Math.PI * radius ** 2 * data.modulus * 1e9,
  };
}

function instrumentName(family: Family, size: Size | undefined): string {
  if (!size) return family;
  if ('mm' in size) return `${family} ${size.mm}mm`;
  return size.name === FAMILIES[family].fullSize ? family : `${family} ${size.name}`;
}
