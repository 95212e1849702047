import type { StaveNote } from 'vexflow/core';
import { bracketsOf } from '../../music/chord-strokes';
import type { SceneEvent } from '../../protocol/scene';
import { outlined } from '../look';
import { num, tag } from '../svg';

/** px: from the heads to the sign, past the heads it covers, length of its hooks; half a wave of a broken chord. */
const GAP = 5;
const OVER = 5;
const HOOK = 4;
const WAVE = 4;

/**
 * What stands before a chord: the wave of one that is broken from below note by note, and a bracket about notes that are taken
 * together, where the text asks for it or the hand has to know.
 */
export function chordOn(note: StaveNote, event: SceneEvent | undefined): string {
  if (!event) return '';
  const heads = [...note.getYs()].sort((a, b) => b - a);
  const x = note.getNoteHeadBeginX() - note.getMetrics().modLeftPx - GAP;
  const waved = event.marks?.some(({ word }) => word === 'arpeggiato');
  if (waved) return wave(x, Math.max(...heads) + OVER, Math.min(...heads) - OVER);
  const { breaking } = event;
  if (!breaking || (!breaking.asked && !breaking.inHalves)) return '';
  return bracketsOf(breaking.strokes)
    .map(([low, high]) => bracket(x, (heads[low] ?? 0) + OVER - 1, (heads[high] ?? 0) - OVER + 1))
    .join('');
}

function bracket(x: number, low: number, high: number): string {
  const d = `M${num(x)} ${num(low)}h${-HOOK}V${num(high)}h${HOOK}`;
  return tag('path', { d, ...outlined('ink', 1.2, 'pw-chord') });
}

function wave(x: number, low: number, high: number): string {
  const turns = Math.max(2, Math.ceil((low - high) / WAVE));
  const curves = Array.from({ length: turns }, (_, i) => `q${i % 2 ? -WAVE : WAVE} ${-WAVE / 2} 0 ${-WAVE}`).join('');
  return tag('path', { d: `M${num(x - 2)} ${num(low)}${curves}`, ...outlined('ink', 1.4, 'pw-chord') });
}
