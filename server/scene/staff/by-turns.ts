import type { StaveNote } from 'vexflow/core';
import { UNMEASURED } from '../../music/tremolo';
import { BY_TURNS } from '../../passage/ornament';
import type { SceneEvent } from '../../protocol/scene';
import { filled } from '../look';
import { num, tag } from '../svg';
import type { Engraved } from './engrave';

/** True of both of two notes that are played by turns. */
export function goesByTurns(events: readonly SceneEvent[], index: number): boolean {
  return (events[index]?.alternates ?? events[index + 1]?.alternates) === true;
}

/** The first signs of each two notes that are played by turns. */
export function pairsByTurns<Sign extends Pick<Engraved, 'event' | 'first'>>(
  signs: readonly Sign[],
  events: readonly SceneEvent[],
): readonly (readonly [Sign, Sign])[] {
  const firsts = new Map(signs.flatMap((sign) => (sign.first && sign.event !== undefined ? [[sign.event, sign] as const] : [])));
  return [...firsts].flatMap(([event, two]) => {
    const one = events[event]?.alternates ? firsts.get(event - 1) : undefined;
    return one ? [[one, two] as const] : [];
  });
}

/** Thickness of a beam, from one to the next, and what is left free beside the stems, px. */
const THICK = 5;
const APART = 7.5;
const FREE = 6;

/** The beams between two notes by turns: they touch neither stem, and lie inside of any beam that the notes have by their value. */
export function beamsBetween(one: StaveNote, two: StaveNote, event: SceneEvent): string {
  const strokes = event.marks?.find(({ word }) => word === BY_TURNS)?.strokes ?? UNMEASURED;
  const [from, to] = [endOf(one, 'right'), endOf(two, 'left')];
  const towardsHeads = one.hasStem() && one.getStemDirection() > 0 ? 1 : -1;
  const own = one.hasStem() ? Math.max(0, Math.log2(Number(one.getDuration())) - 2) : 0;
  const slope = (to.y - from.y) / Math.max(1, to.x - from.x);
  const [left, right] = [from.x + FREE, to.x - FREE];
  const first = one.hasStem() ? own : -(strokes - 1) / 2;
  return Array.from({ length: strokes }, (_, stroke) => {
    const inward = (first + stroke) * APART * towardsHeads;
    const [y, end] = [from.y + FREE * slope + inward, to.y - FREE * slope + inward];
    const low = THICK * towardsHeads;
    return tag('path', {
      ...filled('ink'),
      class: 'pw-by-turns',
      d: `M${num(left)} ${num(y)}L${num(right)} ${num(end)}L${num(right)} ${num(end + low)}L${num(left)} ${num(y + low)}Z`,
    });
  }).join('');
}

/** The tip of the stem; of a whole note the side of its head. */
function endOf(note: StaveNote, side: 'left' | 'right'): { readonly x: number; readonly y: number } {
  if (note.hasStem()) return { x: note.getStemX(), y: note.getStemExtents().topY };
  const ys = note.getYs();
  return {
    x: side === 'right' ? note.getNoteHeadEndX() : note.getNoteHeadBeginX(),
    y: ys.reduce((sum, y) => sum + y, 0) / ys.length,
  };
}
