import type { Stave } from 'vexflow/core';
import { KEY_NAMES } from '../../music/key-names';
import type { ScenePassage } from '../../protocol/scene';
import type { StaffBar } from './bars';
import { type Clef, clefFor } from './clef';

/** What stands at the head of every line. */
export interface Signature {
  readonly clef: Clef;
  /** As the engraver names keys: `D`, `F#m`; `C`, without signs, where the passage names none. */
  readonly key: string;
}

export function signatureOf(passage: ScenePassage): Signature {
  return { clef: clefFor(passage), key: keyName(passage.key) };
}

/** The signature in force in a bar. */
export function signatureIn(signature: Signature, { key, clef }: Pick<StaffBar, 'key' | 'clef'>): Signature {
  return { clef: clef ?? signature.clef, key: keyName(key) };
}

/** A key as the engraver names it. */
export function keyName(key: ScenePassage['key']): string {
  const known = key && KEY_NAMES[key.mode].includes(key.tonic);
  return known ? `${key.tonic}${key.mode === 'minor' ? 'm' : ''}` : 'C';
}

/** Sets clef and key at the head of a line. */
export function addSignature(stave: Stave, { clef, key }: Signature): void {
  stave.addClef(clef);
  if (key !== 'C' && key !== 'Am') stave.addKeySignature(key);
}
