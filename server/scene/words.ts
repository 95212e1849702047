import { touchWords } from '../instrument/nodes';
import { later, t } from '../l10n/translate';
import { parsePitch } from '../music/pitch';
import type { SceneNote } from '../protocol/scene';

const FINGERS: Readonly<Record<string, string>> = {
  T: later('thumb'),
  '1': later('first finger'),
  '2': later('second finger'),
  '3': later('third finger'),
  '4': later('fourth finger'),
};

/** `F#6` as printed: `F♯6`. Signs that every system's fonts have; a double sharp is two signs for the same reason. */
export function printedPitch(pitch: string): string {
  const read = parsePitch(pitch);
  return read ? `${printedLetter(pitch)}${read.octave}` : pitch;
}

/** The same without the octave: `F♯`. */
export function printedLetter(pitch: string): string {
  const read = parsePitch(pitch);
  return read ? read.letter + (read.alter < 0 ? '♭' : '♯').repeat(Math.abs(read.alter)) : pitch;
}

/** `F#6` for a voice: `F sharp 6`. */
export function spokenPitch(pitch: string): string {
  const read = parsePitch(pitch);
  if (!read) return pitch;
  const { letter, alter, octave } = read;
  switch (alter) {
    case 1:
      return t('{letter} sharp {octave}', { letter, octave });
    case 2:
      return t('{letter} double sharp {octave}', { letter, octave });
    case -1:
      return t('{letter} flat {octave}', { letter, octave });
    case -2:
      return t('{letter} double flat {octave}', { letter, octave });
    default:
      return `${letter} ${octave}`;
  }
}

/** `fingers 1 and 4`, `the thumb and finger 3`. */
export function fingersWords(low: string, high: string): string {
  return low === 'T' ? t('the thumb and finger {high}', { high }) : t('fingers {low} and {high}', { low, high });
}

/** `first finger`, `thumb`. */
export function fingerWords(finger: string): string {
  return t(FINGERS[finger] ?? finger);
}

/** Tenths where they matter: `8.2 mm`, `164 mm`. */
export function mmWords(mm: number): string {
  return `${mm < 10 ? mm.toFixed(1) : mm.toFixed(0)} mm`;
}

/** `+2 cents`, `-14 cents`; empty where nobody could tell. A plain hyphen: editors flag a minus sign as a lookalike. */
export function centsWords(cents: number): string {
  const whole = Math.round(cents);
  if (whole === 0) return '';
  const signed = `${whole > 0 ? '+' : ''}${whole}`;
  return Math.abs(whole) === 1 ? t('{signed} cent', { signed }) : t('{signed} cents', { signed });
}

/** `14 cents below`, `2 cents above`; empty where nobody could tell. */
export function centsAway(cents: number): string {
  const whole = Math.abs(Math.round(cents));
  if (whole === 0) return '';
  if (cents > 0) return whole === 1 ? t('1 cent above') : t('{whole} cents above', { whole });
  return whole === 1 ? t('1 cent below') : t('{whole} cents below', { whole });
}

/** The place alone, of the words for a position: `lower 2nd` of `lower 2nd position, extended`. */
export function placeOnly(position: string): string {
  const [before = '', after = ''] = t('{place} position', { place: '\n' }).split('\n');
  const from = position.startsWith(before) ? before.length : 0;
  const end = after ? position.indexOf(after, from) : -1;
  return end < 0 ? position.slice(from) : position.slice(from, end);
}

/** A chance as players count: `8 times in 10`, `19 times in 20`, `nearly always`, `hardly ever`. */
export function often(share: number): string {
  if (share >= 0.985) return t('nearly always');
  if (share >= 0.93) return t('19 times in 20');
  const tenths = Math.round(share * 10);
  if (tenths === 0) return t('hardly ever');
  return tenths === 1 ? t('once in 10') : t('{tenths} times in 10', { tenths });
}

/** How a note is played, in one short line: «II natural 1/3, finger 2», «IV stopped, finger 1», «III fourth harmonic, fingers 1-4». */
export function mannerLabel({ kind, string, stop, touch, interval }: SceneNote): string {
  switch (kind) {
    case 'open':
      return t('{string} open', { string });
    case 'stopped':
      return t('{string} stopped, finger {finger}', { string, finger: `${stop?.finger}` });
    case 'natural':
      return t('{string} natural {fraction}, finger {finger}', {
        string,
        fraction: `${touch?.fraction}`,
        finger: `${touch?.finger}`,
      });
    case 'artificial':
      return t('{string} {interval} harmonic, fingers {low}-{high}', {
        string,
        interval: intervalWords(interval),
        low: `${stop?.finger}`,
        high: `${touch?.finger}`,
      });
  }
}

/** `minor-third` as the trade says it. */
export function intervalWords(interval: string | undefined): string {
  return interval === undefined ? t('artificial') : touchWords(interval);
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(parts: readonly string[]): string {
  return parts.length < 2
    ? (parts[0] ?? '')
    : t('{parts} and {last}', { parts: parts.slice(0, -1).join(', '), last: parts.at(-1) ?? '' });
}

/** Stands wherever playing can hurt. */
export const PAIN = later('Pain means stop: rest, and ask a teacher or a clinician.');

/** With a capital to begin. */
export function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}

export function sentence(text: string): string {
  return `${capital(text)}.`;
}

/** What ends a tempo, as players say it. */
export const LIMITS = {
  'left hand': later('the left hand'),
  response: later('how soon the harmonics speak'),
  'finger and bow': later('finger and bow together'),
} as const;
