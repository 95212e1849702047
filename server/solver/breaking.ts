import type { Breaking } from '../../grammar/marks';
import type { Dynamic } from '../../grammar/tree';
import { firstStroke } from '../music/chord-strokes';
import type { EventSpec } from '../passage/passage';
import type { Shape } from './shape';

/** Three strings answer one stroke only while it is short, s, and strong. Assumption; that it is so: common practice, no source. */
const AT_ONCE = 0.6;
const STRONG: ReadonlySet<Dynamic> = new Set(['f', 'ff', 'fff']);

/**
 * How the bow breaks a chord; undefined for what it plays without breaking. A hint decides, then the fingers, where they can be set
 * in two halves only. Otherwise four notes are broken 2+2; three are taken at once where that is short and strong, else the
 * bass comes first and the upper two are held.
 */
export function breakingOf({ notes, seconds, dynamic }: EventSpec, { ways, hands }: Shape): Breaking | undefined {
  if (ways.length < 3) return undefined;
  const asked = notes.find(({ pins }) => pins.breaking)?.pins.breaking;
  if (asked) return asked;
  if (ways.length === 4) return '2+2';
  if (hands.length > 1) return hands[0]!.notes === 1 ? '1+2' : '2+1';
  return seconds <= AT_ONCE && STRONG.has(dynamic) ? 'together' : '1+2';
}

/** After how many of its notes a chord may be parted for the fingers to be set anew; none where all must be down at once. */
export function partings(notes: EventSpec['notes']): readonly number[] {
  if (notes.length < 3) return [];
  const asked = notes.find(({ pins }) => pins.breaking)?.pins.breaking;
  if (asked) return asked === 'together' ? [] : [firstStroke(asked)];
  return notes.length === 4 ? [2] : [1, 2];
}
