import { t } from '../../../server/l10n/translate';
import type { MeasureReply } from '../../../server/protocol/messages';

/** Reaches measured so far, mm, by pair of fingers: `1-4`. */
export type Reaches = Readonly<Record<string, number>>;

/**
 * mm between two places of a string, each given in semitones above the open string: `length` is the sounding length of the open
 * string, mm. Twelve semitones halve a string, so `s` of them leave `length / 2^(s/12)`.
 */
export function betweenSemitones(length: number, lower: number, higher: number): number {
  return length * (2 ** (-lower / 12) - 2 ** (-higher / 12));
}

type Bounds = Pick<MeasureReply, 'least' | 'most' | 'nested'>;

/** What can't be right about a reach beside those measured before, in words; undefined where nothing is. */
export function doubt(pair: string, mm: number, reaches: Reaches, { least, most, nested }: Bounds): string | undefined {
  if (!(mm >= least && mm <= most))
    return t('A reach lies from {least} to {most} mm. Measure from fingertip to fingertip.', { least, most });
  for (const [inner, outer] of nested) {
    const [inside, around] = [inner, outer].map((name) => (name === pair ? mm : reaches[name]));
    if (inside !== undefined && around !== undefined && inside > around && (inner === pair || outer === pair))
      return t(
        'Fingers {inner} can’t open further ({inside} mm) than fingers {outer} around them ({around} mm). Measure both again.',
        { inner, inside, outer, around },
      );
  }
  return undefined;
}

/** Nobody reaches over more than an octave. */
const OCTAVE = 12;

/** The same of two places given in semitones above the open string. */
export function notesDoubt(lower: number, higher: number): string | undefined {
  if (!(lower >= 0)) return t('Count the semitones from the open string up to the lower finger, as in 2 for a whole tone.');
  if (!(higher > lower)) return t('The higher finger lies above the lower one: count more than {lower} semitones.', { lower });
  if (higher - lower > OCTAVE)
    return t(
      'Between {lower} and {higher} semitones lies more than an octave, which no hand spans. Count again from the open string.',
      { lower, higher },
    );
  return undefined;
}

/** As a player file writes them: `1-2 48, 1-4 98`. */
export function handLine(pairs: readonly string[], reaches: Reaches): string {
  return pairs.flatMap((pair) => (reaches[pair] === undefined ? [] : [`${pair} ${reaches[pair]}`])).join(', ');
}
