import type { IToken } from 'chevrotain';
import { spanOf } from './pitch-words';
import { BarsRest } from './tokens';
import type { RestItem } from './tree';

/** `rest`, or `rest 4 bars`. */
export function restOf(word: IToken): RestItem {
  const rest = { kind: 'rest' as const, ...spanOf(word) };
  return word.tokenType === BarsRest ? { ...rest, bars: Number(/[0-9]+/.exec(word.image)?.[0]) } : rest;
}
