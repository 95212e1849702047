import type { ScenePassage } from '../../server/protocol/scene';
import { passageOf } from '../scene/solved';
import type { Chance } from './chance';

/** Bars by what they are made of, in 4/4; every one can be played on a violin. */
const BARS = {
  stopped: [
    '1/4 D5 F#5 A5 B5',
    '1/8 G4 A4 B4 C5 D5 E5 F#5 G5',
    '1/4 A4 C5 E5 A5',
    '1/8 E5 D5 C#5 B4 1/4 A4 D5',
    '1/4 B4 B4 G4 1/8 A4 B4',
    '1/2 E4 1/4 F#4 G4',
    '1/8 C6 B5 A5 G5 F5 E5 D5 C5',
    '1/4. G5 1/8 F5 1/2 Eb5',
    '1/4 Bb3 C4 1/8 D4 Eb4 F4 G4',
    '1/4 A5 rest G5 F#5',
    '1/16 D5 E5 F#5 G5 1/8 A5 F#5 1/2 D5',
  ],
  natural: [
    '1/4 D6o E6o F#6o A6o',
    '1/4 A5o E6o 1/2 D6o',
    '1/2 <>G5 [II] 1/4 A6o E7o',
    '1/4 D5o A5o D6o A6o',
    '1/4 E6o B6o 1/2 E7o',
    '1/8 D6o F#6o A6o F#6o 1/2 D6o',
  ],
  artificial: [
    '1/4 E5<>A5 F#5<>B5 G5<>C6 A5<>D6',
    '1/4 A4<>D5 B4<>E5 1/2 C5<>F5',
    '1/4 E5<>A5 E5<>B5 1/2 D5<>G5',
    '1/2 B4<>F#5 1/4 A4<>E5 B4<>F#5',
    '1/4 C5<>F5 D5<>G5 E5<>A5 D5<>G5',
    '1/4 F#5<>B5 G5 A5<>D6 B5',
  ],
  double: ['1/4 A5o+E6o 1/2 E6o+B6o 1/4 A5o+E6o', '1/2 D6o+A6o E6o+B6o', '1/2 D5+B5 1/4 C5+A5 B4+G5', '1/2 D5o+A5o D6o+A6o'],
} as const;

export type Made = keyof typeof BARS;

/** A passage of a few bars, fingered. */
export function somePassage(
  chance: Chance,
  made: readonly Made[],
  bars: number,
): { readonly text: string; readonly scene: ScenePassage } {
  const tempo = chance.whole(56, 104);
  const music = Array.from({ length: bars }, () => chance.pick(BARS[chance.pick(made)])).join(' |\n');
  const text = `passage: Tide table\ntempo: 1/4 = ${tempo}\nmeter: 4/4\n${music} ||\n`;
  return { text, scene: passageOf(text) };
}
