import Fraction from 'fraction.js';
import type { DurationItem, Word } from '../../grammar/tree';
import { fault, type Reading } from '../../grammar/values/read-value';
import type { ValueNodes } from '../../grammar/values/value-tree';
import { t } from '../l10n/translate';
import type { Meter, Tempo } from './meter';
import type { Temperament } from './temperament';
import { type Exact, exactly, one } from './time';

/** Bounds of what a file may ask for; outside of them it is a slip of the pen. */
export const BOUNDS = {
  /** Hz of A4: from the low pitch of French baroque wind players to the highest orchestral pitches (assumption). */
  a4: { least: 380, most: 480 },
  /** Beats a minute. */
  bpm: { least: 5, most: 600 },
  meterCount: { least: 1, most: 64 },
} as const;

const METER_UNITS = [1, 2, 4, 8, 16, 32, 64];

/** True for a meter that a passage can have. */
export function isMeter({ count, unit }: Meter): boolean {
  const { least, most } = BOUNDS.meterCount;
  return Number.isInteger(count) && count >= least && count <= most && METER_UNITS.includes(unit);
}

/** Longer numbers are slips, and would cost exactness. */
const MOST_PARTS = 1e6;

export function chooseTempo({ beat, bpm }: ValueNodes['tempo']): Reading<Tempo> {
  const [above, below] = [beat.above.value, beat.below.value];
  if (!isCount(above) || !isCount(below)) {
    return fault(beat, t('the beat is a note value with a whole number above and below, as in 1/4 or 3/8'), ['1/4']);
  }
  const { least, most } = BOUNDS.bpm;
  if (bpm.value < least || bpm.value > most) {
    return fault(bpm, t('a tempo has from {least} to {most} beats a minute', { least, most }), [
      `${Math.min(most, Math.max(least, bpm.value))}`,
    ]);
  }
  const plain = new Fraction(above, below);
  return { value: { beat: one(beat.dotted ? plain.mul(3, 2) : plain), bpm: bpm.value } };
}

function isCount(value: number): boolean {
  return Number.isInteger(value) && value > 0 && value < MOST_PARTS;
}

export function chooseMeter({ count, unit }: ValueNodes['meter']): Reading<Meter> {
  const { least, most } = BOUNDS.meterCount;
  if (!Number.isInteger(count.value) || count.value < least || count.value > most) {
    const near = Math.min(most, Math.max(least, Math.round(count.value)));
    return fault(count, t('a bar has from {least} to {most} beats', { least, most }), [`${near}`]);
  }
  if (!METER_UNITS.includes(unit.value)) {
    const far = (one: number) => Math.abs(one - unit.value);
    const near = METER_UNITS.reduce((best, next) => (far(next) < far(best) ? next : best));
    return fault(unit, t('the lower number names a note value: {units}', { units: METER_UNITS.join(', ') }), [`${near}`]);
  }
  return { value: { count: count.value, unit: unit.value } };
}

export function chooseStandard({ hz }: ValueNodes['standard'], written: Word): Reading<number> {
  const { least, most } = BOUNDS.a4;
  if (hz.value >= least && hz.value <= most) return { value: hz.value };
  return fault(
    hz,
    t('the tuning A has a frequency from {least} to {most} Hz, and {written} is outside', { least, most, written: written.text }),
    ['440'],
  );
}

export function chooseTemperament(node: ValueNodes['temperament']): Reading<Temperament> {
  if (node.word !== 'just') return { value: { kind: node.word } };
  const { letter, alter } = node.tonic;
  return { value: { kind: 'just', tonic: { letter, alter } } };
}

/** Of the numbers in a duration; the reader of the text lets six digits through. */
const LARGEST = 1e9;

/** The duration as written, or nothing for numbers that are none. */
export function exactDuration({ numerator, denominator }: DurationItem): Exact | undefined {
  const meant = (number: number) => Number.isInteger(number) && number > 0 && number <= LARGEST;
  return meant(numerator) && meant(denominator) ? exactly(numerator, denominator) : undefined;
}
