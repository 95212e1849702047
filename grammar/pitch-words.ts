import type { IToken } from 'chevrotain';
import type { KeyName, Letter, PitchNode, Span } from './tree';

/** Semitones of every written accidental. */
export const ACCIDENTALS: Readonly<Record<string, number>> = {
  '': 0,
  '#': 1,
  '##': 2,
  b: -1,
  bb: -2,
  '♯': 1,
  '♯♯': 2,
  '♭': -1,
  '♭♭': -2,
  '𝄪': 2,
  '𝄫': -2,
};
const KEY_NAME = /^([A-G])(##?|bb?|♯♯?|♭♭?|𝄪|𝄫|)$/;

export function spanOf(token: IToken): Span {
  return { start: token.startOffset, end: token.startOffset + token.image.length };
}

/** Reads a `Pitch` token; the circle, if any, stands outside the pitch's span. */
export function readPitch(token: IToken): { pitch: PitchNode; circle?: Span } {
  const { image, startOffset: start } = token;
  const last = image.charCodeAt(image.length - 1);
  const circled = last < 0x30 || last > 0x39;
  const end = start + image.length - (circled ? 1 : 0);
  const digit = image.length - (circled ? 2 : 1);
  const pitch: PitchNode = {
    start,
    end,
    letter: image[0] as Letter,
    alter: ACCIDENTALS[image.slice(1, digit)] ?? 0,
    octave: image.charCodeAt(digit) - 0x30,
  };
  return circled ? { pitch, circle: { start: end, end: end + 1 } } : { pitch };
}

/** `D`, `F#`, `Bb`: a pitch name without octave. */
export function readKeyName(token: IToken): KeyName | undefined {
  const match = KEY_NAME.exec(token.image);
  return match ? { ...spanOf(token), letter: match[1] as Letter, alter: ACCIDENTALS[match[2] as string] ?? 0 } : undefined;
}
