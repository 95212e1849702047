import type { Stave } from 'vexflow/core';
import type { ScenePassage } from '../../protocol/scene';
import { type Clef, clefFor } from './clef';

/** What stands at the head of every line. */
export interface Signature {
  readonly clef: Clef;
  /** As the engraver names keys: `D`, `F#m`; `C`, without signs, where the passage names none. */
  readonly key: string;
}

/** Keys of up to seven signs, the most there are signatures for. A minor key's are those of the major a third above. */
const MAJOR = new Set(['Cb', 'Gb', 'Db', 'Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#']);
const MINOR = new Set(['Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#', 'G#', 'D#', 'A#']);

export function signatureOf(passage: ScenePassage): Signature {
  const { key } = passage;
  const known = key && (key.mode === 'major' ? MAJOR : MINOR).has(key.tonic);
  return { clef: clefFor(passage), key: known ? `${key.tonic}${key.mode === 'minor' ? 'm' : ''}` : 'C' };
}

/** Sets clef and key at the head of a line. */
export function addSignature(stave: Stave, { clef, key }: Signature): void {
  stave.addClef(clef);
  if (key !== 'C' && key !== 'Am') stave.addKeySignature(key);
}
