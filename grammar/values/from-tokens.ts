import type { IToken } from 'chevrotain';
import { ACCIDENTALS, readKeyName, spanOf } from '../pitch-words';
import type { KeyName, Letter, PitchNode, StringNumber, Word } from '../tree';
import { Position, StringName } from './value-tokens';
import type { KeepNode, Keyword, NumberNode } from './value-tree';

export function around(first: IToken, last: IToken): { start: number; end: number } {
  return { start: first.startOffset, end: spanOf(last).end };
}

export function wordOf(token: IToken): Word {
  return { ...spanOf(token), text: token.image };
}

export function numberFrom(token: IToken): NumberNode {
  return { ...spanOf(token), value: Number(token.image) };
}

export function keyword<W extends string>(token: IToken): Keyword<W> {
  return { ...spanOf(token), word: token.image.toLowerCase().replace(/\s+/g, '-') as W };
}

export function stringOf(token: IToken): StringNumber {
  return (token.image.length === 2 && token.image.toUpperCase() === 'IV' ? 4 : token.image.length) as StringNumber;
}

/** `II`, `3rd` or `no open strings`. */
export function keptOf(token: IToken): KeepNode {
  const place = spanOf(token);
  if (token.tokenType === StringName) return { ...place, string: stringOf(token) };
  if (token.tokenType === Position) return { ...place, position: Number.parseInt(token.image, 10) };
  return { ...place, open: false };
}

/** Names of keys and strings are read whatever the letter's size: a value holds nothing else that they could be. */
export function keyNameOf(token: IToken): KeyName {
  const image = capital(token.image);
  return readKeyName({ ...token, image }) ?? { ...spanOf(token), letter: image[0] as Letter, alter: 0 };
}

export function pitchOf(token: IToken): PitchNode {
  const image = capital(token.image);
  const alter = ACCIDENTALS[image.slice(1, -1)] ?? 0;
  return { ...spanOf(token), letter: image[0] as Letter, alter, octave: Number(image.slice(-1)) };
}

function capital(image: string): string {
  return image.slice(0, 1).toUpperCase() + image.slice(1).toLowerCase();
}
