import type { SceneEvent } from '../../protocol/scene';
import { outlined } from '../look';
import { num, tag } from '../svg';

/** Half of a hairpin's mouth, and what it keeps free at a dynamic, px. */
const MOUTH = 4.5;
const FREE = 14;

interface Column {
  readonly event: SceneEvent;
  readonly x: number;
}

/** From where to where a hairpin runs, px. */
export interface Span {
  readonly kind: Hairpin;
  readonly left: number;
  readonly right: number;
}

/** The hairpins of one line of music; one that began before it or goes on after it runs to the line's edge, at `end`. */
export function hairpins(row: readonly Column[], events: readonly SceneEvent[], end: number): readonly Span[] {
  const first = row[0];
  let open = first && hairpinInto(events, first.event.index);
  let from = open ? first : undefined;
  const found: Span[] = [];
  for (const column of row) {
    const change = changeAt(events, column.event.index);
    if (!change) continue;
    if (open && from && column !== from) found.push(span(open, from, column.x - FREE));
    open = change === 'end' ? undefined : change;
    from = column;
  }
  if (open && from) found.push(span(open, from, end - 6));
  return found;
}

type Hairpin = 'crescendo' | 'diminuendo';

/** What begins or ends before an event: a dynamic ends a hairpin as its own end does. */
function changeAt(events: readonly SceneEvent[], index: number): Hairpin | 'end' | undefined {
  const event = events[index];
  const begins = event?.directions?.findLast((word) => word === 'crescendo' || word === 'diminuendo');
  if (begins) return begins as Hairpin;
  const ends = event?.directions?.some((word) => word.startsWith('end '));
  return ends || event?.dynamic !== events[index - 1]?.dynamic ? 'end' : undefined;
}

/** The hairpin that an event stands in from before. */
function hairpinInto(events: readonly SceneEvent[], index: number): Hairpin | undefined {
  for (let at = index - 1; at >= 0; at--) {
    const change = changeAt(events, at);
    if (change) return change === 'end' ? undefined : change;
  }
  return undefined;
}

function span(kind: Hairpin, { event, x }: Column, to: number): Span {
  const dynamic = event.directions?.includes(kind) ? 10 : 0;
  return { kind, left: x - 6 + dynamic, right: Math.max(to, x + 14) };
}

/** A hairpin whose dynamics stand on the line `y`. */
export function drawHairpin({ kind, left, right }: Span, y: number): string {
  const middle = y - 4;
  const [narrow, wide] = kind === 'crescendo' ? [left, right] : [right, left];
  const d = `M${num(wide)} ${num(middle - MOUTH)}L${num(narrow)} ${num(middle)}L${num(wide)} ${num(middle + MOUTH)}`;
  return tag('path', { ...outlined('ink', 1, 'pw-hairpin'), d });
}
