import type { SceneNote } from '../protocol/scene';

const ORDINALS: Readonly<Record<string, string>> = { '1': 'first', '2': 'second', '3': 'third', '4': 'fourth' };

/** `F#6` as printed: `F♯6`. Signs that every system's fonts have; a double sharp is two signs for the same reason. */
export function printedPitch(pitch: string): string {
  return pitch.replace(
    /^([A-G])([#b]*)/,
    (_, letter: string, sign: string) => letter + sign.replaceAll('#', '♯').replaceAll('b', '♭'),
  );
}

/** `F#6` for a voice: `F sharp 6`. */
export function spokenPitch(pitch: string): string {
  const [, letter = '', sign = '', octave = ''] = /^([A-G])([#b]*)(.*)$/.exec(pitch) ?? [];
  const name = { '#': ' sharp', '##': ' double sharp', b: ' flat', bb: ' double flat' }[sign] ?? '';
  return `${letter}${name} ${octave}`;
}

/** `fingers 1 and 4`, `the thumb and finger 3`. */
export function fingersWords(low: string, high: string): string {
  return low === 'T' ? `the thumb and finger ${high}` : `fingers ${low} and ${high}`;
}

/** `first finger`, `thumb`. */
export function fingerWords(finger: string): string {
  return finger === 'T' ? 'thumb' : `${ORDINALS[finger] ?? finger} finger`;
}

/** Tenths where they matter: `8.2 mm`, `164 mm`. */
export function mmWords(mm: number): string {
  return `${mm < 10 ? mm.toFixed(1) : mm.toFixed(0)} mm`;
}

/** `+2 cents`, `-14 cents`; empty where nobody could tell. A plain hyphen: editors flag a minus sign as a lookalike. */
export function centsWords(cents: number): string {
  const whole = Math.round(cents);
  return whole === 0 ? '' : `${whole > 0 ? '+' : '-'}${Math.abs(whole)} ${Math.abs(whole) === 1 ? 'cent' : 'cents'}`;
}

/** `14 cents below`, `2 cents above`; empty where nobody could tell. */
export function centsAway(cents: number): string {
  const whole = Math.abs(Math.round(cents));
  return whole === 0 ? '' : `${whole} ${whole === 1 ? 'cent' : 'cents'} ${cents > 0 ? 'above' : 'below'}`;
}

/** A chance as players count: `8 times in 10`, `19 times in 20`, `nearly always`, `hardly ever`. */
export function often(share: number): string {
  if (share >= 0.985) return 'nearly always';
  if (share >= 0.93) return '19 times in 20';
  const tenths = Math.round(share * 10);
  return tenths === 0 ? 'hardly ever' : tenths === 1 ? 'once in 10' : `${tenths} times in 10`;
}

/** How a note is played, in one short line: «II natural 1/3, finger 2», «IV stopped, finger 1», «III fourth harmonic, fingers 1-4». */
export function mannerLabel(note: SceneNote): string {
  switch (note.kind) {
    case 'open':
      return `${note.string} open`;
    case 'stopped':
      return `${note.string} stopped, finger ${note.stop?.finger}`;
    case 'natural':
      return `${note.string} natural ${note.touch?.fraction}, finger ${note.touch?.finger}`;
    case 'artificial':
      return `${note.string} ${intervalWords(note.interval)} harmonic, fingers ${note.stop?.finger}-${note.touch?.finger}`;
  }
}

/** `minor-third` as the trade says it. */
export function intervalWords(interval: string | undefined): string {
  return interval === undefined ? 'artificial' : interval.replace('-', ' ');
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(parts: readonly string[]): string {
  return parts.length < 2 ? (parts[0] ?? '') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}

/** Stands wherever playing can hurt. */
export const PAIN = 'Pain means stop: rest, and ask a teacher or a clinician.';

/** With a capital to begin. */
export function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}

export function sentence(text: string): string {
  return `${capital(text)}.`;
}

/** What ends a tempo, as players say it. */
export const LIMITS = {
  'left hand': 'the left hand',
  response: 'how soon the harmonics speak',
  'finger and bow': 'finger and bow together',
} as const;
