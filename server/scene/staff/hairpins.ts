import { isStress, levelAfter } from '../../../grammar/marks';
import type { SceneEvent, ScenePiece } from '../../protocol/scene';
import { outlined } from '../look';
import { num, tag } from '../svg';
import type { StaffBar } from './bars';

/** Half of a hairpin's mouth, and what it keeps free at a dynamic, px. */
const MOUTH = 4.5;
const FREE = 14;

export type Hairpin = 'crescendo' | 'diminuendo';

/** What is printed at a note or rest. */
export type Printed = Pick<SceneEvent | ScenePiece, 'says' | 'directions' | 'marks'>;

/** A note, a rest or a bar line on a line of music, and what a hairpin does there. */
export interface Column {
  readonly x: number;
  readonly change: Hairpin | 'end' | undefined;
}

/** From where to where a hairpin runs, px. */
export interface Span {
  readonly kind: Hairpin;
  readonly left: number;
  readonly right: number;
}

/** The hairpins of one line of music; one that began before it (`open`) or goes on after it runs to the line's edge, at `end`. */
export function hairpins(row: readonly Column[], into: Hairpin | undefined, end: number): readonly Span[] {
  let open = into;
  let from = open && row[0] && { x: row[0].x, begins: false };
  const found: Span[] = [];
  for (const { x, change } of row) {
    if (!change) continue;
    if (open && from && (from.begins || x > from.x)) found.push(span(open, from, x - FREE));
    open = change === 'end' ? undefined : change;
    from = { x, begins: true };
  }
  if (open && from) found.push(span(open, from, end - 6));
  return found;
}

/** What begins or ends before a note or rest: a dynamic ends a hairpin as its own end does. */
export function hairpinChange({ says, directions = [], marks = [] }: Printed): Hairpin | 'end' | undefined {
  const begins = directions.findLast((word): word is Hairpin => word === 'crescendo' || word === 'diminuendo');
  if (begins) return begins;
  const level = marks.some(({ word }) => isStress(word) && levelAfter(word) !== undefined);
  return says || level || directions.some((word) => word.startsWith('end ')) ? 'end' : undefined;
}

/** The hairpin that is open behind some bars, given the one that was before them. */
export function hairpinAfter(
  bars: readonly StaffBar[],
  events: readonly SceneEvent[],
  before: Hairpin | undefined,
): Hairpin | undefined {
  let open = before;
  for (const { stretches, endsHairpin } of bars) {
    for (const { event, printed } of stretches) {
      const change = hairpinChange((event === undefined ? printed : events[event]) ?? {});
      if (change) open = change === 'end' ? undefined : change;
    }
    if (endsHairpin) open = undefined;
  }
  return open;
}

function span(kind: Hairpin, { x, begins }: { readonly x: number; readonly begins: boolean }, to: number): Span {
  return { kind, left: x - 6 + (begins ? 10 : 0), right: Math.max(to, x + 14) };
}

/** A hairpin whose dynamics stand on the line `y`. */
export function drawHairpin({ kind, left, right }: Span, y: number): string {
  const middle = y - 4;
  const [narrow, wide] = kind === 'crescendo' ? [left, right] : [right, left];
  const d = `M${num(wide)} ${num(middle - MOUTH)}L${num(narrow)} ${num(middle)}L${num(wide)} ${num(middle + MOUTH)}`;
  return tag('path', { ...outlined('ink', 1, 'pw-hairpin'), d });
}
