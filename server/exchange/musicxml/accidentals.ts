import { type Key, keyAlter } from '../../music/interval';
import { type Pitch, step } from '../../music/pitch';

const NAMES: Readonly<Record<number, string>> = { [-2]: 'flat-flat', [-1]: 'flat', 0: 'natural', 1: 'sharp', 2: 'double-sharp' };

/** Which accidentals must be printed: one holds for its own line or space to the end of the bar. */
export class Accidentals {
  readonly #bar = new Map<number, number>();

  constructor(public key: Key | undefined) {}

  /** Forgets what the bar before had; `key` is the one in force from here. */
  newBar(key: Key | undefined): void {
    this.key = key;
    this.#bar.clear();
  }

  /** MusicXML's name of the accidental before this note head; undefined where none is needed. */
  next(pitch: Pitch): string | undefined {
    const line = step(pitch);
    const inForce = this.#bar.get(line) ?? (this.key ? keyAlter(pitch.letter, this.key) : 0);
    if (inForce === pitch.alter) return undefined;
    this.#bar.set(line, pitch.alter);
    return NAMES[pitch.alter];
  }
}
