import type { StaveNote } from 'vexflow/core';
import { UNMEASURED } from '../../music/tremolo';
import type { SceneEvent } from '../../protocol/scene';
import { EM } from './labels';
import { TREMOLO_SIGNS } from './mark-signs';
import { sign } from './outline-context';
import { OUTLINES } from './outlines';

/** The strokes of a tremolo: through the stem, or under a note that has none. */
export function tremoloOn(note: StaveNote, event: SceneEvent | undefined): string {
  const mark = event?.marks?.find(({ word }) => word === 'tremolo');
  if (!mark) return '';
  const strokes = Math.min(mark.strokes ?? UNMEASURED, TREMOLO_SIGNS.length);
  const code = TREMOLO_SIGNS[strokes - 1] as number;
  const box = OUTLINES.get(code)?.box ?? [0, 0, 0, 0];
  const size = EM / 1000;
  const middle = (note.getNoteHeadBeginX() + note.getNoteHeadEndX()) / 2;
  const stem = note.hasStem() ? note.getStemExtents() : undefined;
  const x = stem ? note.getStemX() : middle;
  const y = stem ? stem.topY * 0.6 + stem.baseY * 0.4 : Math.max(...note.getYs()) + 14;
  return sign(code, x - ((box[0] + box[2]) / 2) * size, y - ((box[1] + box[3]) / 2) * size, EM);
}
