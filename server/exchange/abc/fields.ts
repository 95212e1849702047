import Fraction from 'fraction.js';
import { t } from '../../l10n/translate';
import { BOUNDS } from '../../music/choice';
import { durationText } from '../../music/duration';
import { SHARPENED } from '../../music/key-names';
import type { Meter } from '../../music/meter';
import type { Clef } from '../../scene/staff/clef';
import type { Losses } from '../score/losses';
import { keyValue, meterFrom } from '../score/signatures';
import type { TuneKey, TuneMeter, TuneTempo } from './tune';

const SIGNS: Readonly<Record<string, number>> = { sharp: 1, flat: -1, dblsharp: 2, dblflat: -2, natural: 0 };

/** What the signature does to each letter, in semitones. */
export function alterOf({ accidentals }: TuneKey): ReadonlyMap<string, number> {
  return new Map(accidentals.map(({ acc, note }) => [note.toUpperCase(), SIGNS[acc] ?? 0]));
}

/** The value of a `key:` line; undefined where the signature is that of no major or minor key. */
export function keyField(key: TuneKey, bar: string, losses: Losses): string | undefined {
  if (key.root === 'none') return undefined;
  const alters = alterOf(key);
  const signed = [...alters.values()].filter((alter) => alter !== 0);
  const fifths = signed.reduce((sum, alter) => sum + alter, 0);
  const usual = SHARPENED.every((letter, i) => (alters.get(letter) ?? 0) === (i < fifths ? 1 : 6 - i < -fifths ? -1 : 0));
  const minor = /^m(?:in.*)?$/i.test(key.mode) || /^aeo/i.test(key.mode);
  const church = minor || key.mode === '' || /^(?:maj|ion)/i.test(key.mode) ? undefined : key.mode;
  return keyValue(usual ? fifths : undefined, minor ? 'minor' : 'major', church, bar, losses);
}

/** The meter, `free` for music without one. */
export function meterField({ type, value }: TuneMeter, bar: string, losses: Losses): Meter | 'free' {
  if (type === 'common_time') return { count: 4, unit: 4 };
  if (type === 'cut_time') return { count: 2, unit: 2 };
  if (type !== 'specified' || !value) return 'free';
  const groups = value.map(({ num, den }) => ({ beats: num, unit: Number(den ?? 4) }));
  return meterFrom(groups, bar, losses);
}

/** A clef that a string player reads, as `treble-8` names it. */
export function clefField(type: string): Clef | undefined {
  const [plain] = type.split(/[+-]/);
  return plain === 'treble' || plain === 'alto' || plain === 'tenor' || plain === 'bass' ? plain : undefined;
}

/** The value of a `tempo:` line; undefined where only words are said. */
export function tempoOf({ bpm, duration }: TuneTempo, bar: string, losses: Losses): string | undefined {
  if (bpm === undefined) return undefined;
  const beat = (duration ?? [0.25]).reduce((sum, each) => sum.add(lengthOf(each)), new Fraction(0));
  const { least, most } = BOUNDS.bpm;
  if (bpm >= least && bpm <= most && beat.compare(0) > 0) return `${durationText(beat)} = ${Math.round(bpm * 1000) / 1000}`;
  losses.leftOut(bar, t('a tempo too slow or too fast to play'), String(bpm));
  return undefined;
}

/** A length that the library reckons in floating point, made exact: ABC's lengths have small denominators. */
export function lengthOf(length: number): Fraction {
  return Number.isFinite(length) && length > 0 && length < 1e6 ? new Fraction(length).simplify(1e-9) : new Fraction(0);
}
